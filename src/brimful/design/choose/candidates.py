"""What can be chosen for a zone: the plan's own tables with one more field filled in."""

from collections.abc import Iterator

from brimful.catalog import Catalog, Dripline, Emitter
from brimful.design.settle.zones import main_of
from brimful.plan import schema
from brimful.plan.schema import Containers, Plan, Zone
from brimful.records import record

LOOPS = (1, 2, 3)
COUNTS = (1, 2, 3, 4, 6, 8, 10, 12)
HEAD_OVER_START_M = 4.0  # above the pressure at which an emitter begins to compensate: common practice, no source


@record
class Candidate:
    """A way to emit, with the regulator that suits it; `family` is the product, whatever its number."""

    family: str
    words: str
    emission: schema.Dripline | schema.Emitters | None
    regulator_m: float | None


@record
class Open:
    """What a zone leaves open."""

    emission: bool
    regulator: bool
    lateral: bool
    main: bool
    feeder: bool

    @property
    def any(self) -> bool:
        """Whether anything is open at all."""
        return self.emission or self.regulator or self.lateral or self.main or self.feeder


def open_of(plan: Plan, zone: Zone, rows: tuple[Containers, ...]) -> Open:
    """What neither the zone, nor the plan, nor every row of the zone says."""
    both = (zone, plan.tubing)
    emits = any(t.dripline or t.emitters for t in both) or all(row.dripline or row.emitters for row in rows)
    return Open(
        emission=not emits,
        regulator=not any(t.regulator for t in both),
        lateral=not any(t.lateral for t in both),
        main=not any(t.main is not None and t.main.tube for t in both),
        feeder=not any(t.feeder is not None and t.feeder.tube for t in (*both, *rows)),
    )


def local(name: str, units: str) -> bool:
    """Whether a product is sold in the plan's own units; goods named in neither are sold everywhere."""
    metric, us = " mm" in name or "L/h" in name, " in" in name or "gph" in name
    return not (us and not metric if units == "metric" else metric and not us)


def candidates(catalog: Catalog, open_: Open, units: str) -> Iterator[Candidate]:
    """Every way to emit that the catalogue offers in the plan's units, or the plan's own where it is fixed."""
    settings = sorted(d.setting_m for d in catalog.devices.values() if d.setting_m is not None)
    if not open_.emission:
        yield Candidate("as planned", "as planned", None, None)
        return
    for line in (row for row in catalog.driplines.values() if local(row.name, units)):
        for loops in LOOPS:
            words = f"{loops} loop{'s' if loops > 1 else ''} of {line.name}"
            yield Candidate(
                line.key, words, schema.Dripline(type=line.key, loops=loops), _setting(line, settings, open_)
            )
    for emitter in (row for row in catalog.emitters.values() if local(row.name, units)):
        for count in COUNTS:
            words = f"{count} × {emitter.name}"
            yield Candidate(
                emitter.key, words, schema.Emitters(type=emitter.key, count=count), _setting(emitter, settings, open_)
            )


def _setting(row: Dripline | Emitter, settings: list[float], open_: Open) -> float | None:
    """The regulator nearest above what the emitter is made for."""
    if not open_.regulator:
        return None
    wanted = row.start_m + HEAD_OVER_START_M if row.compensating and row.start_m else row.pressure_m
    within = [s for s in settings if wanted * 0.98 <= s <= row.most_m]
    return within[0] if within else max(s for s in settings if s <= max(row.most_m, settings[0]))


def with_choice(plan: Plan, zone: Zone, candidate: Candidate, tubes: dict[str, str]) -> Zone:
    """The zone's table with the choice filled in, tube by part; what the plan fixes stays."""
    feeder = zone.feeder or plan.tubing.feeder or schema.Feeder()
    given = main_of(plan, zone)
    update: dict[str, object] = {}
    if isinstance(candidate.emission, schema.Dripline):
        update["dripline"] = candidate.emission
    if isinstance(candidate.emission, schema.Emitters):
        update["emitters"] = candidate.emission
    if candidate.regulator_m is not None:
        update["regulator"] = candidate.regulator_m
    if "lateral" in tubes:
        update["lateral"] = tubes["lateral"]
    if "main" in tubes:
        update["main"] = given.model_copy(update={"tube": tubes["main"]})
    if "feeder" in tubes:
        update["feeder"] = feeder.model_copy(update={"tube": tubes["feeder"]})
    return zone.model_copy(update=update)
