"""The planting as a gardener reads it: places and build order, cover, bloom, colours, orders, upkeep."""

from rich.console import Console
from rich.table import Table

from brimful.design.planting.model import PlantingWorked, RowPlanting, SwapWorked
from brimful.findings import Finding
from brimful.quantities import Dimension, System, show
from brimful.render.as_text import finding_lines
from brimful.render.markup import as_words
from brimful.render.summary import COLOURS, titled_table

MOST_SHOWN = 8


def show_planting(planting: PlantingWorked, findings: tuple[Finding, ...]) -> None:
    """Print the planting to the terminal; on a narrow or piped one it stays readable."""
    console = _console()
    planting = as_words(planting)
    system = System.METRIC if planting.units == "metric" else System.US
    console.print(f"[bold]{planting.title}[/bold]")
    _print_findings(console, findings)
    for row in planting.rows:
        console.print(f"\n[bold]{row.row}[/bold]: {row.containers_count} × {len(row.places)} plants")
        for reason in row.reasons:
            console.print(f"  {reason}")
        for table in (_places(row, system), _steps(row), _cover(row), _bloom(row), _swatches(row), _pairs(row)):
            console.print(table)
        hours = [week.visit_h + week.deadhead_h + week.trim_h for week in row.upkeep]
        if hours:
            console.print(f"Upkeep: {sum(hours) / len(hours):.1f} h a week on average, {max(hours):.1f} h at most.")
    console.print(_orders(planting))
    console.print(f"Growth worked out for {planting.growth_taken_as}.", style="dim")
    console.print(f"Cold: {planting.coldest_taken_as}.", style="dim")


def show_swaps(swaps: tuple[SwapWorked, ...], findings: tuple[Finding, ...]) -> None:
    """Print what can stand in for a plant."""
    console = _console()
    _print_findings(console, findings)
    for swap in as_words(swaps):
        parts = [part.part for part in swap.substitutes[0].parts] if swap.substitutes else []
        table = titled_table(f"Instead of {swap.count} {swap.plant} in {swap.row}", ("plant",), ("score", "count"))
        for part in parts:
            table.add_column(part, justify="right")
        for one in swap.substitutes[:MOST_SHOWN]:
            scores = [f"{part.score:.2f}" for part in one.parts]
            table.add_row(one.plant, f"{one.score:.2f}", str(one.count), *scores)
        console.print(table)
        for one in swap.substitutes[:MOST_SHOWN]:
            console.print(f"  {one.plant}: {'; '.join(one.changes) or 'nothing changes'}")
        if not swap.substitutes:
            console.print("Nothing in the catalogue can stand in.")
        console.print(f"{swap.stopped_count} others cannot. Sun {swap.sun_h:.1f} h: {swap.sun_taken_as}.", style="dim")


def _console() -> Console:
    console = Console(highlight=False)
    return console if console.is_terminal else Console(highlight=False, width=110)


def _print_findings(console: Console, findings: tuple[Finding, ...]) -> None:
    if findings:
        console.print("\nTo mind", style="bold")
    for finding in findings:
        console.print(*finding_lines([finding]), style=COLOURS[finding.severity], markup=False)


def _places(row: RowPlanting, system: System) -> Table:
    table = titled_table("Places, from the middle: right, back", ("plant", "layer"), ("right", "back", "to the rim"))
    for place in row.places:
        figures = (place.x_m, place.y_m, place.to_rim_m)
        table.add_row(place.plant, place.role, *(show(value, Dimension.LENGTH, system) for value in figures))
    return table


def _steps(row: RowPlanting) -> Table:
    table = titled_table("Build order", ("", "what", "why"))
    for number, step in enumerate(row.steps, 1):
        table.add_row(str(number), step.what, step.why)
    return table


def _cover(row: RowPlanting) -> Table:
    table = titled_table("Leaves over the mouth", ("weeks",), ("covered", "bare", "beyond the rim"))
    for week in row.cover:
        mouth = week.gap_m2 + week.canopy_area_m2 - week.overhang_m2
        shares = (week.cover_share, week.gap_m2 / mouth, week.overhang_m2 / mouth)
        table.add_row(str(week.week), *(f"{100 * share:.0f} %" for share in shares))
    return table


def _bloom(row: RowPlanting) -> Table:
    months = list(dict.fromkeys(one.month for one in row.bloom))
    table = titled_table("Bloom, share of the month", ("plant",), months)
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


def _orders(planting: PlantingWorked) -> Table:
    table = titled_table(
        "Order", ("plant", "size", "order by", "harden from", "plant on"), ("needed", "trays", "ordered")
    )
    for one in planting.orders:
        counts = (str(one.needed_count), str(one.trays_count), str(one.ordered_count))
        table.add_row(one.plant, one.size, one.order_by, one.hardening, one.planting, *counts)
    return table
