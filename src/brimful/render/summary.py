"""The summary a gardener acts on: the sentence first, then the tables, then what to mind and what was assumed."""

from collections.abc import Callable, Sequence

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table

from brimful.design.model import NO_WEATHER, UNNAMED, Design, Material, Occasion, RowWorked, RunTimeWorked, ZoneWorked
from brimful.findings import Finding, Severity
from brimful.quantities import Dimension, System, show, show_number, unit_of
from brimful.render.as_text import finding_lines
from brimful.render.markup import as_words
from brimful.render.paper import terminal, text_of
from brimful.render.words import supply_words, tube_words, zone_words

OCCASION_WORDS: dict[Occasion, str] = {
    "planting_day": "after planting",
    "mid_season": "mid-season",
    "peak": "hottest days",
}
BARS = "▁▂▃▄▅▆▇█"
COLOURS = {Severity.ERROR: "bold red", Severity.WARNING: "yellow", Severity.NOTE: ""}
ROWS_ABREAST = 4
REASONS = 4
CUBIC_FOOT_L = 28.316846592
BY_THE_DAY = (
    "These minutes bring what the plants take in a day. `brimful season` sets the timer week by week: it counts on "
    "what the mix still holds and on rain, and so sets less, in the first weeks often nothing."
)


def show_summary(design: Design, findings: tuple[Finding, ...], units: str | None) -> None:
    """Print the summary to the terminal; on a narrow or piped one it stays readable."""
    print_summary(design, findings, units, terminal())


def summary_text(design: Design, findings: tuple[Finding, ...]) -> str:
    """The summary as plain text, as wide as a printed page."""
    return text_of(lambda console: print_summary(design, findings, None, console))


def print_summary(design: Design, findings: tuple[Finding, ...], units: str | None, console: Console) -> None:
    """Print the summary to a console."""
    system = System.METRIC if (units or design.units) == "metric" else System.US
    design = as_words(design)
    place = "" if design.site.place == UNNAMED else f"  [dim]{design.site.place}[/dim]"
    console.print(f"[bold]{design.title}[/bold]{place}\n")
    for zone in design.zones:
        console.print(answer(zone, system) + "\n")
    if design.site.weather != NO_WEATHER and any(zone.run_times for zone in design.zones):
        console.print(f"[dim]{BY_THE_DAY}[/dim]\n")
    if findings:
        console.print("[bold]To mind[/bold]")
    for finding in findings:
        console.print(*finding_lines([finding]), style=COLOURS[finding.severity], markup=False)
    for start in range(0, len(design.rows), ROWS_ABREAST):
        console.print(_rows(design.rows[start : start + ROWS_ABREAST], system))
    console.print(_climate(design, system))
    for zone in design.zones:
        console.print(_zone_head(zone, system))
        console.print(row_of_bars(zone))
        console.print(_times(zone, system))
        console.print(_budget(zone, system))
        if zone.choices or zone.rejected:
            _choices(console, zone)
    console.print(_materials(design, system))
    console.print(_assumptions(design))


def answer(zone: ZoneWorked, system: System) -> str:
    """The sentence a person would say about a zone."""
    times = {time.occasion: time for time in zone.run_times}
    if "peak" not in times:
        return f"[bold]{zone.name}[/bold]: no water arrives. See below what to mend."
    least = min(zone.containers, key=lambda c: c.share_of_mean)
    return (
        f"[bold]{zone.name}[/bold]: run {_starts(times['planting_day'])} after planting, "
        f"{_starts(times['mid_season'])} at mid-season, {_starts(times['peak'])} on the hottest days. "
        f"Its {zone.containers_count} containers draw {show(zone.flow_l_h, Dimension.FLOW, system)} together; "
        f"emitters of {least.container}, the weakest, give {100 * least.share_of_mean:.0f} % of the mean."
    )


def row_of_bars(zone: ZoneWorked) -> str:
    """The rows in bars, one a container from the water's end: full height is the strongest flow."""
    most = max(c.flow_l_h for c in zone.containers)
    bars: dict[str, str] = {}
    for c in zone.containers:
        bar = BARS[max(0, min(7, round(8 * c.flow_l_h / most) - 1))] if most > 0 else BARS[0]
        bars[c.row] = bars.get(c.row, "") + bar
    return "\n".join(f"  {line if len(line) <= 70 else line[:67] + '...'}  {name}" for name, line in bars.items())


def _starts(time: RunTimeWorked) -> str:
    if time.starts_per_day_count == 1:
        return f"{time.minutes_per_start} min a day"
    return f"{time.starts_per_day_count} × {time.minutes_per_start} min a day"


def titled_table(title: str, left: Sequence[str], right: Sequence[str] = ()) -> Table:
    table = Table(title=title, title_justify="left", title_style="bold", box=SIMPLE_HEAD, pad_edge=False)
    table.min_width = len(title.strip()) + 2
    for name in left:
        table.add_column(name)
    for name in right:
        table.add_column(name, justify="right")
    return table


def _rows(rows: Sequence[RowWorked], system: System) -> Table:
    table = titled_table("\nOne container of each row", ["each holds"], [f"{row.name} ({row.count})" for row in rows])
    volume, mass = Dimension.VOLUME, Dimension.MASS
    table.add_row("container", *(row.container for row in rows))

    def line(words: str, dimension: Dimension, figure: Callable[[RowWorked], float]) -> None:
        table.add_row(words, *(show(figure(row), dimension, system) for row in rows))

    table.add_row("room for mix", *(loose(row.fill_volume_l, system) for row in rows))
    table.add_row("mix to buy", *(loose(row.mix_to_buy_l, system) for row in rows))
    line("water held, drained", volume, lambda row: row.water_held_l)
    line("of it easy to take up", volume, lambda row: row.easily_available_l)
    table.add_row("air in the mix, drained", *(f"{100 * row.air_share:.0f} %" for row in rows))
    line("weight empty", mass, lambda row: row.weight_empty_kg)
    line("weight saturated", mass, lambda row: row.weight_saturated_kg)
    for i, demand in enumerate(rows[0].demands):
        wants = (row.demands[i].demand_l_day for row in rows)
        table.add_row(f"wants a day, {OCCASION_WORDS[demand.occasion]}", *(show(v, volume, system) for v in wants))
    return table


def _climate(design: Design, system: System) -> str:
    shown = (
        f"{OCCASION_WORDS[o.occasion]} {show(o.et0_mm_day, Dimension.DEPTH, system)}" for o in design.site.occasions
    )
    return f"Reference evapotranspiration a day: {', '.join(shown)}. [dim]Weather: {design.site.weather}.[/dim]"


def _zone_head(zone: ZoneWorked, system: System) -> str:
    speed = zone.most_velocity_m_s
    fast = f"{speed:.2f} m/s" if system is System.METRIC else f"{speed / 0.3048:.1f} ft/s"
    return (
        f"\n[bold]{zone_words(zone.name).capitalize()}[/bold]: {show(zone.flow_l_h, Dimension.FLOW, system)}, "
        f"{supply_words(zone.supply_share)}; "
        f"{zone.regulator}; emission uniformity {zone.emission_uniformity_percent:.0f} %; "
        f"fastest water {fast} in {tube_words(zone.most_velocity_where)}. Flow by container:"
    )


def _times(zone: ZoneWorked, system: System) -> Table:
    water = f"whole zone, {unit_of(Dimension.VOLUME, system)} a day"
    table = titled_table("", ["when"], ["starts", "minutes each", water])
    table.add_column("ruled by")
    for time in zone.run_times:
        used = show_number(time.zone_l_day, Dimension.VOLUME, system)
        starts, minutes = str(time.starts_per_day_count), str(time.minutes_per_start)
        table.add_row(
            OCCASION_WORDS[time.occasion], starts, minutes, used, f"{time.container}; starts by {time.set_by}"
        )
    return table


def _budget(zone: ZoneWorked, system: System) -> Table:
    unit = unit_of(Dimension.PRESSURE, system)
    title = f"Where the pressure goes, tap to last emitter of {zone.worst_container}"
    table = titled_table(title, ["part"], [f"takes, {unit}", f"leaves, {unit}"])
    table.add_row("tap, nothing running", "", show_number(zone.static_head_m, Dimension.PRESSURE, system))
    for step in zone.pressure_budget:
        lost, left = (show_number(v, Dimension.PRESSURE, system) for v in (step.head_lost_m, step.head_left_m))
        table.add_row(step.where, lost, left)
    return table


def _choices(console: Console, zone: ZoneWorked) -> None:
    """What was chosen where the plan is silent, the next best, and why others fell."""
    table = titled_table(
        "Chosen, where the plan is silent; best first", ["", "in each container", "lateral; main; feeder"]
    )
    for name in ("even, %", "min, hottest", "cost"):
        table.add_column(name, justify="right")
    for one in zone.choices:
        tubes = f"{one.lateral}; {one.main}; {one.feeder}"
        even, minutes = f"{one.emission_uniformity_percent:.0f}", f"{one.minutes_per_day:.0f}"
        table.add_row(
            "taken" if one.rank == 1 else str(one.rank), one.emission, tubes, even, minutes, f"{one.cost_money:.0f}"
        )
    console.print(table)
    for fallen in zone.rejected[:REASONS]:
        console.print(f"  [dim]not {fallen.emission}: {fallen.reason}[/dim]")
    if len(zone.rejected) > REASONS:
        console.print(f"  [dim]and {len(zone.rejected) - REASONS} more; design --json gives every reason[/dim]")


def _materials(design: Design, system: System) -> Table:
    table = titled_table("\nTo have before the day", ["what", "which"], ["how much"])
    for material in design.materials:
        table.add_row(material.what, material.name.removeprefix(f"{material.what} "), _much(material, system))
    return table


def _much(material: Material, system: System) -> str:
    if material.volume_l is not None and material.pack_l is not None:
        return f"{loose(material.volume_l, system)} = {material.count} bags of {loose(material.pack_l, system)}"
    if material.length_m is not None:
        return show(material.length_m, Dimension.LENGTH, system)
    return str(material.count)


def loose(volume_l: float, system: System) -> str:
    """Mix is sold by the cubic foot, or by the litre."""
    return f"{volume_l / CUBIC_FOOT_L:.2f} cu ft" if system is System.US else f"{volume_l:.0f} L"


def _assumptions(design: Design) -> Table:
    table = titled_table("\nAssumed, because the plan does not say", ["to change it, set", "taken", "source"])
    for one in design.assumptions:
        table.add_row(one.field, f"{one.what}: {one.value}", f"[dim]{one.source}[/dim]")
    return table
