"""Lists for all of a planting: when to plant, what to order and when, hours of upkeep week by week."""

from datetime import date
from itertools import groupby

from rich.table import Table

from brimful.design.planting.model import PlantingWorked, UpkeepWorked
from brimful.quantities import Dimension, System, show
from brimful.render.summary import titled_table

TOO_COLD = {System.US: "45 °F", System.METRIC: "7 °C"}
"""Below which hardening plants come in (master gardener handbook, read in quotation)."""
IN_MINUTES_H = 2.0
"""Hours of the busiest week below which upkeep is told in minutes."""


def day_words(iso: str) -> str:
    """A date as a person says it; a dot for none.

    >>> day_words("2027-05-15"), day_words("")
    ('15 May', '·')
    """
    return f"{date.fromisoformat(iso).day} {date.fromisoformat(iso):%b}" if iso else "·"


def windows_table(planting: PlantingWorked, system: System) -> Table:
    """When each taxon may be planted, and what ends it; taxa of the same dates together."""
    left = ("plant", "class", "from", "until", "held by", "mix at least", "harmed at", "ends by")
    table = titled_table("\nWhen to plant at best, and the cold that ends it", left)
    groups: dict[tuple[str, ...], list[str]] = {}
    for one in planting.windows:
        mix, harmed = (show(value, Dimension.TEMPERATURE, system) for value in (one.mix_least_c, one.harmed_at_c))
        days = (day_words(one.plant_from), day_words(one.plant_until), one.held_by or "·", mix, harmed)
        groups.setdefault((one.hardiness, *days, day_words(one.ends)), []).append(one.plant)
    for cells, plants in groups.items():
        table.add_row(", ".join(plants), *cells)
    return table


def orders_table(planting: PlantingWorked, system: System) -> Table:
    """Plants in whole trays, with their dates."""
    day = day_words(planting.orders[0].planting) if planting.orders else ""
    left, right = ("plant", "grown as", "order", "harden"), ("needed", "trays", "plants", "cost")
    table = titled_table(f"Order, to plant on {day}", left, right)
    table.columns[0].min_width = max((len(one.plant) for one in planting.orders), default=0)
    for one in planting.orders:
        days = (f"{day_words(one.order_from)} to {day_words(one.order_by)}", day_words(one.hardening))
        trays = f"{one.trays_count} × {one.per_tray_count}" if one.per_tray_count > 1 else str(one.trays_count)
        cost = "·" if one.cost_money is None else f"{planting.currency}{one.cost_money:,.2f}"
        plant = f"{one.plant}: {', '.join(one.colours)}" if one.colours else one.plant
        table.add_row(plant, one.lead, *days, str(one.needed_count), trays, str(one.ordered_count), cost)
    table.caption = f"Harden off in two weeks: shade first, more sun each day, indoors below {TOO_COLD[system]}.\n"
    table.caption_justify = "left"
    return table


def upkeep_table(weeks: tuple[UpkeepWorked, ...]) -> Table:
    """Hours of all containers, minutes where there are few; weeks of equal work, one after the other, in one line."""
    short = max(week.visit_h + week.deadhead_h + week.trim_h for week in weeks) < IN_MINUTES_H
    right = ("look", "deadhead", "trim", "in all")
    table = titled_table(f"Upkeep of all containers, {'minutes' if short else 'hours'} a week", ("week from",), right)
    table.add_column("cut back")
    for cells, group in groupby(weeks, lambda week: _times(week, short=short)):
        days = [day_words(week.week) for week in group]
        table.add_row(days[0] if len(days) == 1 else f"{days[0]} … {days[-1]}", *cells)
    return table


def _times(week: UpkeepWorked, *, short: bool) -> tuple[str, ...]:
    hours = (week.visit_h, week.deadhead_h, week.trim_h, week.visit_h + week.deadhead_h + week.trim_h)
    shown = (f"{60 * value:.0f}" if short else f"{value:.1f}" for value in hours)
    return (*shown, ", ".join(week.trimmed) or "·")
