"""The planting of a settled plan, and what can stand in for one of its plants."""

from dataclasses import dataclass, field, replace
from datetime import date

from brimful.catalog import Catalog, RootBall
from brimful.design.growing import RowGrown, taxon_of
from brimful.design.ledger import Ledger
from brimful.design.planting.model import OrderWorked, PartWorked, PlantingWorked, SubstituteWorked, SwapWorked
from brimful.design.planting.palette import palette_of
from brimful.design.planting.rows import row_of
from brimful.design.planting.words import in_units
from brimful.design.settle import PlantSpec, RowSpec, Settled
from brimful.design.settle.notes import Notes
from brimful.domains.planting.light import Site, cautions
from brimful.domains.planting.order import order_dates, spare_share, tray_order
from brimful.domains.planting.substitute import WEIGHTS, Ranking, Wanted, rank_substitutes

COLDEST_C = 1.0
"""Tender plants stand from the last frost to the first: just above freezing (our own rule)."""
COLDEST = f"{COLDEST_C:g} °C, just above frost, as plants stand from the last frost to the first (own rule)"


@dataclass(frozen=True, slots=True)
class PlantingDesk:
    """What lies on the desk: the settled plan, its rows as grown, its catalogue, season's days, notes, and hours of sun
    by row."""

    settled: Settled
    grown: tuple[RowGrown, ...]
    catalog: Catalog
    notes: Notes
    planted: date
    removed: date
    sun_h: dict[str, float] = field(default_factory=dict)
    ledger: Ledger = field(default_factory=Ledger)


def planting_of(desk: PlantingDesk, title: str, units: str) -> PlantingWorked:
    """Layout, growth, colours and upkeep of each row, and the plants to order."""
    palette, rows = palette_of(desk.catalog), []
    for row, grown in zip(desk.settled.rows, desk.grown, strict=True):
        worked = row_of(row, grown, (desk.planted, desk.removed), palette, desk.ledger)
        steps = tuple(replace(step, what=in_units(step.what, units)) for step in worked.steps)
        worked = replace(worked, steps=steps)
        rows.append(worked)
        for problem in grown.layout.problems:
            tell = desk.notes.note if problem.code == "loop-room" else desk.notes.warn
            tell(
                problem.code,
                ("containers", row.index),
                f'row "{row.name}": {in_units(problem.message, units)}',
                problem.remedy,
            )
    _caution(desk, units)
    return PlantingWorked(
        title,
        units,
        tuple(rows),
        _orders(desk),
        in_units(desk.grown[0].taken_as, units),
        in_units(COLDEST, units),
        tuple(desk.notes.findings),
    )


def _caution(desk: PlantingDesk, units: str) -> None:
    """Cold, poison, skin, spread, each told once with its rows; light only where the hours of sun are known.

    Mixed thirst is told by the checks of the design.
    """
    told: dict[tuple[str, str], list[RowSpec]] = {}
    for row in desk.settled.rows:
        known = desk.sun_h.get(row.name)
        site = Site(0.0 if known is None else known, COLDEST_C)
        for caution in cautions(tuple(taxon_of(spec) for spec in row.plants), site):
            if caution.code != "mixed-water" and not (caution.code == "light" and known is None):
                told.setdefault((caution.code, caution.message), []).append(row)
    for (code, message), rows in told.items():
        where = ", ".join(row.name for row in rows)
        desk.notes.note(code, ("containers", rows[0].index), f"{in_units(message, units)} ({where})")


def _orders(desk: PlantingDesk) -> tuple[OrderWorked, ...]:
    needed: dict[tuple[str, RootBall], int] = {}
    for row in desk.settled.rows:
        for spec in row.plants:
            key = (spec.plant.key, spec.root_ball)
            needed[key] = needed.get(key, 0) + spec.count * row.count
    found = []
    for (plant, ball), count in needed.items():
        spare = spare_share(ball.volume_l)
        trays = desk.ledger.at("orders", plant).work(
            "tray_order", tray_order, needed=count, per_tray=ball.per_tray, spare=spare
        )
        dates = order_dates(desk.planted)
        days = (dates.order_from, dates.order_by, dates.hardening, dates.planting)
        found.append(
            OrderWorked(plant, ball.name, count, trays.trays, trays.ordered, *(day.isoformat() for day in days))
        )
    return tuple(found)


def swaps_of(desk: PlantingDesk, word: str) -> tuple[SwapWorked, ...]:
    """What can stand in for a plant in each row that has it; what is wrong with the word is a finding."""
    plant = desk.notes.pick(desk.catalog.plants, word, (), "plant")
    if plant is None:
        return ()
    having = [(row, spec) for row in desk.settled.rows for spec in row.plants if spec.plant.key == plant.key]
    if not having:
        planted = ", ".join(dict.fromkeys(s.plant.key for row in desk.settled.rows for s in row.plants))
        desk.notes.wrong("not-planted", (), f"{plant.key} is not among the plan's plants", f"Planted are: {planted}.")
    return tuple(_swap(desk, row, spec) for row, spec in having)


def _swap(desk: PlantingDesk, row: RowSpec, spec: PlantSpec) -> SwapWorked:
    wanted, known = taxon_of(spec), desk.sun_h.get(row.name)
    middle = (wanted.direct_sun_hours_min + wanted.direct_sun_hours_max) / 2
    site = Site(middle if known is None else known, max(COLDEST_C, wanted.min_temp_damage_c + 0.1), one_dripper=False)
    taxa = tuple(taxon_of(PlantSpec(plant, 1, spec.root_ball)) for plant in desk.catalog.plants.values())
    ranking: Ranking = desk.ledger.at("swap", row.name).work(
        "substitutes",
        rank_substitutes,
        wanted=Wanted(wanted, spec.count),
        taxa=taxa,
        site=site,
        palette=palette_of(desk.catalog).labs,
    )
    told = "middle of the range the plant wants: the plan tells no shade" if known is None else "worked out from shade"
    return SwapWorked(
        row.name,
        wanted.key,
        spec.count,
        site.sun_h,
        told,
        tuple(
            SubstituteWorked(
                s.taxon.key,
                s.taxon.common_name,
                s.score,
                s.count,
                tuple(PartWorked(name, value, WEIGHTS[name]) for name, value in s.parts.items()),
                s.changes,
            )
            for s in ranking.substitutes
        ),
        len(ranking.stopped),
    )
