"""The planting of a settled plan."""

from dataclasses import replace

from brimful.design.planting.densities import densities_of
from brimful.design.planting.desk import PlantingDesk
from brimful.design.planting.harm import tell_ends, tell_harm
from brimful.design.planting.model import PlantingWorked, RowPlanting, UpkeepWorked
from brimful.design.planting.orders import orders_of, windows_of
from brimful.design.planting.palette import palette_of
from brimful.design.planting.rows import row_of
from brimful.design.planting.swaps import sun_swaps_of
from brimful.design.planting.words import by_name, in_units

__all__ = ["PlantingDesk", "planting_of"]


def planting_of(desk: PlantingDesk, title: str, units: str) -> PlantingWorked:
    """Layout, growth, colours and upkeep of each row, the plants to order and when they may be planted."""
    palette, days, rows = palette_of(desk.catalog), desk.days, []
    season = desk.planted, desk.removed
    for row, grown, dense in zip(desk.settled.rows, desk.grown, densities_of(desk), strict=True):
        tube = desk.tubes.get(row.name)
        worked = row_of(row, grown, season, palette=palette, tube=tube, ledger=desk.ledger)
        names = {spec.plant.key: spec.plant.common_name for spec in row.plants}
        steps = tuple(replace(step, what=by_name(in_units(step.what, units), names)) for step in worked.steps)
        reasons = tuple(by_name(in_units(reason, units), names) for reason in worked.reasons)
        rows.append(replace(worked, steps=steps, reasons=reasons, densities=dense))
    orders, windows = orders_of(desk), windows_of(desk)
    tell_ends(desk, windows)
    tell_harm(desk)
    return PlantingWorked(
        title=title,
        units=units,
        rows=tuple(rows),
        orders=orders,
        windows=windows,
        swaps=sun_swaps_of(desk),
        upkeep=_together(rows),
        growth_taken_as=in_units(desk.grown[0].taken_as, units),
        coldest_c=days.coldest_c,
        coldest_taken_as=in_units(days.coldest_taken_as, units),
        last_frost="" if days.last_frost is None else days.last_frost.isoformat(),
        last_frost_taken_as=days.frost_taken_as,
        currency=desk.plan.currency,
        findings=tuple(desk.notes.findings),
    )


def _together(rows: list[RowPlanting]) -> tuple[UpkeepWorked, ...]:
    """The hours of all rows week by week."""
    weeks = zip(*(row.upkeep for row in rows), strict=True)
    return tuple(
        UpkeepWorked(
            week[0].week,
            sum(one.visit_h for one in week),
            sum(one.deadhead_h for one in week),
            sum(one.trim_h for one in week),
            tuple(dict.fromkeys(key for one in week for key in one.trimmed)),
        )
        for week in weeks
    )
