"""The planting as a gardener reads it: places and build order, cover, bloom, colours; order, dates, swaps, upkeep."""

from collections.abc import Iterable
from dataclasses import replace

from rich.console import Console
from rich.table import Table

from brimful.design.planting.model import PlantingWorked, RowPlanting
from brimful.findings import Finding
from brimful.quantities import Dimension, System, show, show_number
from brimful.render.markup import as_words
from brimful.render.plant_lists import day_words, orders_table, upkeep_table, windows_table
from brimful.render.summary import titled_table
from brimful.render.swaps import console_of, print_findings, print_swap
from brimful.render.words import MONTHS

MOST_SHOWN = 8


def show_planting(planting: PlantingWorked, findings: tuple[Finding, ...]) -> None:
    """Print the planting to the terminal; on a narrow or piped one it stays readable."""
    console = console_of()
    planting = as_words(planting)
    system = System.METRIC if planting.units == "metric" else System.US
    console.print(f"[bold]{planting.title}[/bold]")
    print_findings(console, findings)
    for rows in _alike(planting.rows):
        _print_row(console, rows, system, planting.currency)
    for swap in planting.swaps:
        print_swap(console, swap, system)
    if planting.windows:
        console.print(windows_table(planting, system))
    if planting.orders:
        console.print(orders_table(planting, system))
    if planting.upkeep:
        console.print(upkeep_table(planting.upkeep))
    _print_taken(console, planting, system)


def _alike(rows: Iterable[RowPlanting]) -> list[list[RowPlanting]]:
    """Rows whose containers are planted alike, together; hours of upkeep differ with their number."""
    groups: dict[RowPlanting, list[RowPlanting]] = {}
    for row in rows:
        groups.setdefault(replace(row, row="", containers_count=0, upkeep=()), []).append(row)
    return list(groups.values())


def _print_row(console: Console, rows: list[RowPlanting], system: System, currency: str) -> None:
    row, count = rows[0], sum(one.containers_count for one in rows)
    names = " and ".join(one.row for one in rows)
    alike = f"{count} containers, alike" if count > 1 else "one container"
    console.print(f"\n[bold]{names}[/bold]: {alike}, {len(row.places)} plants each")
    for reason in row.reasons:
        console.print(f"  {reason}")
    if row.densities:
        console.print(_densities(row, system, currency))
    tables = (_places(row, system), _steps(row), _cover(row), _bloom(row), _swatches(row), _pairs(row))
    for table in tables if row.places else ():
        console.print(table)


def _print_taken(console: Console, planting: PlantingWorked, system: System) -> None:
    console.print(f"Growth worked out for {planting.growth_taken_as}.", style="dim")
    coldest = show(planting.coldest_c, Dimension.TEMPERATURE, system)
    console.print(f"Coldest night: {coldest}: {planting.coldest_taken_as}.", style="dim")
    if planting.last_frost:
        said = f"Last frost: by {day_words(planting.last_frost)} in {planting.last_frost_taken_as}."
        console.print(said, style="dim")


def _densities(row: RowPlanting, system: System, currency: str) -> Table:
    right = ("plants", f"cost, {currency}", "a day, after planting", "a day, mid-season")
    table = titled_table("\nOne container, grow-in or at once", ("density",), right)
    for one in row.densities:
        name = f"{one.density}, taken" if one.chosen else one.density
        name += f": {one.does_not_fit[0]}" if one.does_not_fit and not one.chosen else ""
        cost = "no price" if one.cost_money is None else f"{one.cost_money:.2f}"
        water = (show(litres, Dimension.VOLUME, system) for litres in (one.water_planting_l_day, one.water_l_day))
        table.add_row(name, str(one.plants_count), cost, *water)
    return table


def _places(row: RowPlanting, system: System) -> Table:
    unit = "in" if system is System.US else "cm"
    table = titled_table(
        f"Places, from the middle: right, back; all in {unit}", ("plant", "layer"), ("right", "back", "to the rim")
    )
    for place in row.places:
        figures = (place.x_m, place.y_m, place.to_rim_m)
        table.add_row(place.plant, place.role, *(_in_hand(value, system) for value in figures))
    return table


def _in_hand(length_m: float, system: System) -> str:
    """A length within a container as a hand measures it: inches to the quarter, or whole centimetres."""
    if system is System.METRIC:
        return f"{100 * length_m:z.0f}"
    return show_number(length_m, Dimension.LENGTH, system, small=True)


def _steps(row: RowPlanting) -> Table:
    table = titled_table("Build order", ("", "what", "why"))
    for number, step in enumerate(row.steps, 1):
        table.add_row(str(number), step.what, step.why)
    return table


def _cover(row: RowPlanting) -> Table:
    table = titled_table("Leaves over the mouth", ("weeks",), ("covered", "bare", "beyond the rim"))
    for week in row.cover:
        mouth = week.gap_m2 + week.canopy_area_m2 - week.overhang_m2
        shares = (week.cover_share, max(0.0, week.gap_m2 / mouth), week.overhang_m2 / mouth)
        table.add_row(str(week.week), *(f"{100 * share:.0f} %" for share in shares))
    return table


def _bloom(row: RowPlanting) -> Table:
    months = list(dict.fromkeys(one.month for one in row.bloom))
    heads = [MONTHS[int(month[5:7]) - 1] for month in months]
    table = titled_table("Bloom, share of the month", ("plant",), heads)
    for plant in dict.fromkeys(one.plant for one in row.bloom):
        table.add_row(
            plant, *(f"{100 * one.share:.0f} %" if one.share else "·" for one in row.bloom if one.plant == plant)
        )
    return table


def _swatches(row: RowPlanting) -> Table:
    table = titled_table("Colours these plants come in", ("colour", "screen colour", "plants"), ("warm + cool −",))
    for one in row.swatches:
        table.add_row(one.colour, one.srgb, ", ".join(one.plants), f"{one.warmth:+.1f}")
    return table


def _pairs(row: RowPlanting) -> Table:
    right = ("difference", "harmony", "least seen", "lightness apart")
    table = titled_table("Colours most alike, all in plants --json", ("one", "other"), right)
    for pair in sorted(row.pairs, key=lambda one: one.least_seen_difference)[:MOST_SHOWN]:
        figures = (f"{pair.difference:.0f}", f"{pair.harmony:+.2f}", f"{pair.least_seen_difference:.0f}")
        table.add_row(pair.one, pair.other, *figures, f"{pair.lightness_step:.0f}")
    return table
