"""The whole computation, in order. Each stage is a pure function of its inputs: only what an edit touches is redone."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from brimful.catalog import Catalog
from brimful.design.choose import Choices, choose_open, fill_choices
from brimful.design.choose.judge import Need
from brimful.design.climate import Climate, climate_of
from brimful.design.containers import containers_of
from brimful.design.demand import demands_of
from brimful.design.growing import RowGrown, grown_of
from brimful.design.ledger import Ledger, Working
from brimful.design.materials import materials_of
from brimful.design.mends import refined
from brimful.design.model import Assumption, Design
from brimful.design.run_times import needs_of, run_times_of
from brimful.design.settle import Settled, ZoneSpec, settle
from brimful.design.settle.notes import Notes
from brimful.design.tube import emitters_of, tubes_of
from brimful.design.water import water_of
from brimful.findings import Finding
from brimful.plan.read import Places
from brimful.plan.schema import Plan
from brimful.records import record


@record
class Outcome:
    """A design where there is one, the findings on the way, how each figure was worked out, each row as grown, and the
    climate it was grown in."""

    design: Design | None
    findings: tuple[Finding, ...]
    workings: dict[str, Working]
    settled: Settled | None = None
    grown: tuple[RowGrown, ...] = ()
    climate: Climate | None = None


@dataclass(slots=True)
class Stages:
    """Runs stages, and keeps what each gave for the inputs it had, so that an unchanged stage is not run again.

    Beyond `most` answers, those that were not asked for longest are let go.
    """

    kept: dict["_Inputs", tuple[Any, dict[str, Working]]] = field(default_factory=dict)
    ran: list[str] = field(default_factory=list)
    most: int = 5000

    def run(self, name: str, stage: Callable[..., Any], ledger: Ledger, *inputs: Any) -> Any:
        """The stage's answer for these inputs; its workings go into the ledger."""
        key = _Inputs(name, inputs)
        found = self.kept.pop(key, None)
        if found is None:
            own = Ledger()
            found = stage(*inputs, own), own.entries
            self.ran.append(name)
        self.kept[key] = found
        while len(self.kept) > self.most:
            del self.kept[next(iter(self.kept))]
        answer, workings = found
        ledger.entries.update(workings)
        return answer

    def run_each(
        self, name: str, stage: Callable[..., Any], ledger: Ledger, many: tuple[tuple[Any, ...], ...], *rest: Any
    ) -> tuple[Any, ...]:
        """A stage that takes rows, or zones, run for each alone, so that an edit to one leaves the others kept.

        Args:
            many: the rows, and whatever else there is one of for each row.
            rest: what is the same for all.
        """
        together = zip(*many, strict=True)
        return tuple(one for each in together for one in self.run(name, stage, ledger, *((e,) for e in each), *rest))


class _Inputs:
    """The name of a stage and its inputs, hashed once, since their hash goes through everything inside them."""

    __slots__ = ("hash", "what")

    def __init__(self, name: str, inputs: tuple[Any, ...]) -> None:
        self.what = (name, inputs)
        self.hash = hash(self.what)

    def __hash__(self) -> int:
        return self.hash

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Inputs) and self.hash == other.hash and self.what == other.what


def work_out(plan: Plan, catalog: Catalog, places: Places, *, folder: Path, stages: Stages | None = None) -> Outcome:
    """A plan worked out whole, or the findings that stand in its way."""
    stages = stages or Stages()
    run, run_each, ledger, notes, sky = stages.run, stages.run_each, Ledger(), Notes(places), Notes(places)
    settled = settle(plan, catalog, notes)
    climate = climate_of(plan.site, folder, settled.season if settled else None, sky, ledger)
    if settled is None or climate is None or not sky.sound:
        return Outcome(None, (*notes.findings, *sky.findings), {})

    rows = run_each("containers", containers_of, ledger, (settled.rows,))
    grown = run_each("growth", grown_of, ledger, (settled.rows,), climate.warmth)
    demands = run_each("demand", demands_of, ledger, (settled.rows, grown), climate.occasions, catalog)
    needs = needs_of(rows, demands)
    choices = _chosen(plan, settled, needs, catalog, run)
    settled, notes = fill_choices(choices, settled, catalog, notes)
    water = run_each("water", water_of, ledger, (settled.zones,))
    tubes = run_each("tube", tubes_of, ledger, (settled.rows, grown))
    emitters = run_each("emitters", emitters_of, ledger, (settled.rows, grown))
    refined_zones = tuple(
        run(
            "chance",
            refined,
            ledger,
            spec,
            zone,
            *_of_zone(spec, settled, needs),
            (catalog, plan.units, settled.usable_share),
        )
        for spec, zone in zip(settled.zones, water, strict=True)
    )
    times = run("run times", run_times_of, ledger, settled, rows, demands, water)
    materials = run("materials", materials_of, ledger, settled, rows, tubes)

    assumptions = (*notes.assumptions.values(), *sky.assumptions.values())
    design = _assembled(
        plan,
        settled,
        climate,
        (rows, grown, demands, (tubes, emitters), refined_zones, times, materials, choices),
        assumptions,
    )
    return Outcome(design, (*notes.findings, *sky.findings), ledger.entries, settled, grown, climate)


def _of_zone(spec: ZoneSpec, settled: Settled, needs: dict[str, Need]) -> tuple[Any, Any]:
    """The rows of a zone, and what their containers need."""
    rows = tuple(row for row in settled.rows if row.zone == spec.name)
    return rows, tuple((row.name, needs[row.name]) for row in rows)


def _chosen(plan: Plan, settled: Settled, needs: dict[str, Need], catalog: Catalog, run: Callable[..., Any]) -> Choices:
    """The choices for what the plan leaves open: kept by all that the plan says, but for its title."""
    said = repr(plan.model_copy(update={"title": ""}))
    choices = run(
        "choices", lambda *_: choose_open(plan, settled, needs, catalog), Ledger(), said, tuple(needs.items()), catalog
    )
    filled: Choices = replace(choices, plan=plan.model_copy(update={"zone": choices.plan.zone}))
    return filled


def _assembled(
    plan: Plan, settled: Settled, climate: Climate, parts: tuple[Any, ...], assumptions: tuple[Assumption, ...]
) -> Design:
    rows, grown, demands, (tubes, emitters), water, times, materials, choices = parts
    return Design(
        plan.title,
        plan.units,
        climate.site,
        tuple(
            replace(row, demands=demand, places=one.places, growth=one.weeks, tube=tube, emitters=single)
            for row, one, demand, tube, single in zip(rows, grown, demands, tubes, emitters, strict=True)
        ),
        tuple(
            replace(
                zone,
                run_times=times[zone.name],
                supply_share_limit=settled.usable_share,
                choices=choices.best.get(zone.name, ()),
                rejected=choices.rejected.get(zone.name, ()),
            )
            for zone in water
        ),
        materials,
        assumptions,
        (),
    )
