"""What can stand in for a plant that cannot be had, or that gets too little or too much sun where it stands."""

from collections.abc import Iterator

from brimful.design.planting.desk import PlantingDesk
from brimful.design.planting.effects import Change, effects_of
from brimful.design.planting.harm import forbidden_at
from brimful.design.planting.model import EffectWorked, PartWorked, SubstituteWorked, SwapWorked
from brimful.design.planting.palette import palette_of
from brimful.design.settle import PlantSpec, RowSpec
from brimful.design.settle.planting import taxon_of
from brimful.domains.planting.light import Site, light_fit
from brimful.domains.planting.substitute import WEIGHTS, Ranking, Substitute, Wanted, rank_substitutes
from brimful.domains.planting.taxon import Taxon
from brimful.records import record

MOST_FOR_SUN = 3
NEAR_BOUND_H = 0.5
"""So near its range a plant is left where it is: a bound is no cliff (our own rule)."""


@record
class _Case:
    """One plant of one row that is to be replaced: in which containers, why, and the hours of sun there."""

    row: RowSpec
    spec: PlantSpec
    containers: tuple[str, ...]
    why: str
    sun_h: float
    sun_taken_as: str
    hours: tuple[float, ...] = ()

    def suits(self, taxon: Taxon) -> bool:
        """Whether a taxon bears the sun of every one of the containers."""
        return all(abs(light_fit(taxon, hours).off_h) <= NEAR_BOUND_H for hours in self.hours)

    @property
    def only_bright(self) -> bool:
        """Whether it is a plant of full sun in more sun than it likes best: full sun is 6 h or more (arboretum page,
        read)."""
        return "full-sun" in self.spec.plant.light and self.sun_h > self.spec.plant.direct_sun_hours_max

    @property
    def alike(self) -> tuple[object, ...]:
        """Cases of which this is the same have one answer."""
        row = self.row
        return (row.plants, row.vessel, row.mix, row.headspace_m, row.microclimate, self.spec, self.why, self.sun_h)


def swaps_of(desk: PlantingDesk, word: str) -> tuple[SwapWorked, ...]:
    """What can stand in for a plant in each row that has it; what is wrong with the word is a finding."""
    plant = desk.notes.pick(desk.catalog.plants, word, (), "plant")
    if plant is None:
        return ()
    having = [(row, spec) for row in desk.settled.rows for spec in row.plants if spec.plant.key == plant.key]
    if not having:
        planted = ", ".join(dict.fromkeys(s.plant.key for row in desk.settled.rows for s in row.plants))
        desk.notes.wrong("not-planted", (), f"{plant.key} is not among the plan's plants", f"Planted are: {planted}.")
    groups: dict[tuple[object, ...], list[_Case]] = {}
    for row, spec in having:
        case = _wanted_elsewhere(desk, row, spec)
        groups.setdefault(case.alike, []).append(case)
    return tuple(_swap(desk, cases) for cases in groups.values())


def sun_swaps_of(desk: PlantingDesk) -> tuple[SwapWorked, ...]:
    """For each plant outside its range of sun, the three that best keep outline and colour there; told as findings."""
    found = []
    for row in desk.settled.rows:
        for spec in row.plants:
            for case in _out_of_range(desk, row, spec):
                if case.only_bright:
                    mend = "It bears full sun; water it well where the wind is hot."
                    desk.notes.note("light", ("containers", row.index), _said(case), mend)
                    continue
                swap = _swap(desk, [case], most=MOST_FOR_SUN)
                _tell(desk, case, swap)
                found.append(swap)
    return tuple(found)


def _wanted_elsewhere(desk: PlantingDesk, row: RowSpec, spec: PlantSpec) -> _Case:
    known, plant = desk.sun_of_row(row.name), spec.plant
    if known is not None:
        return _Case(row, spec, row.ids, "cannot be had", known, "worked out from shade")
    middle = (plant.direct_sun_hours_min + plant.direct_sun_hours_max) / 2
    told = "middle of the range the plant wants: the plan tells no shade"
    return _Case(row, spec, row.ids, "cannot be had", middle, told)


def _out_of_range(desk: PlantingDesk, row: RowSpec, spec: PlantSpec) -> Iterator[_Case]:
    """The containers of a row in which a plant gets too little sun, and those in which it gets too much."""
    taxon, hours = taxon_of(spec), desk.sun_h.get(row.name, ())
    for sign in (-1.0, 1.0):
        off = [i for i, h in enumerate(hours) if sign * light_fit(taxon, h).off_h > NEAR_BOUND_H]
        if off:
            mean = sum(hours[i] for i in off) / len(off)
            fit = light_fit(taxon, mean)
            why = f"{mean:.1f} h of sun, {fit.verdict}; expected {fit.range_words}"
            taken, there = "mean of these containers, from shade", tuple(hours[i] for i in off)
            yield _Case(row, spec, tuple(row.ids[i] for i in off), why, mean, taken, there)


def _swap(desk: PlantingDesk, cases: list[_Case], *, most: int | None = None) -> SwapWorked:
    case = cases[0]
    ranking = _ranked(desk, case)
    standing = [one for one in ranking.substitutes if case.suits(one.taxon)]
    cannot = len(ranking.stopped) + len(ranking.substitutes) - len(standing)
    standing = standing[:most]
    containers = tuple(name for one in cases for name in one.containers)
    by = tuple((one.taxon, one.count) for one in standing)
    now, *effects = effects_of(desk, Change(case.row, case.spec, len(containers), by))
    return SwapWorked(
        tuple(one.row.name for one in cases),
        containers,
        case.spec.plant.key,
        case.spec.count,
        case.why,
        case.sun_h,
        case.sun_taken_as,
        desk.plan.currency,
        now,
        tuple(_substitute(one, effect) for one, effect in zip(standing, effects, strict=True)),
        cannot,
    )


def _ranked(desk: PlantingDesk, case: _Case) -> Ranking:
    wanted = taxon_of(case.spec)
    coldest = max(desk.days.coldest_c, wanted.min_temp_damage_c + 0.1)
    site = Site(case.sun_h, coldest, forbidden_at(desk.plan.site), one_dripper=False)
    taxa = tuple(taxon_of(PlantSpec(plant, 1, case.spec.root_ball)) for plant in desk.plants.values())
    return desk.ledger.at("swap", case.row.name).work(
        f"substitutes {wanted.key}",
        rank_substitutes,
        wanted=Wanted(wanted, case.spec.count),
        taxa=taxa,
        site=site,
        palette=palette_of(desk.catalog).labs,
    )


def _substitute(one: Substitute, effect: EffectWorked) -> SubstituteWorked:
    parts = tuple(PartWorked(name, value, WEIGHTS[name]) for name, value in one.parts.items())
    return SubstituteWorked(one.taxon.key, one.taxon.common_name, one.score, one.count, parts, one.changes, effect)


def _tell(desk: PlantingDesk, case: _Case, swap: SwapWorked) -> None:
    """A finding with the stand-ins in its remedy."""
    best = ", ".join(f"{one.count} {one.name} ({one.score:.2f})" for one in swap.substitutes)
    mend = f"Instead of {case.spec.count}, keeping outline and colour: {best}." if best else "Nothing else fits there."
    desk.notes.warn("light", ("containers", case.row.index), _said(case), mend)


def _said(case: _Case) -> str:
    where = f'row "{case.row.name}"' if len(case.containers) == case.row.count else _named(case.containers)
    return f"{case.spec.plant.common_name} in {where} gets {case.why}"


def _named(containers: tuple[str, ...]) -> str:
    return ", ".join(containers) if len(containers) <= 3 else f"{containers[0]}, {containers[1]} … {containers[-1]}"
