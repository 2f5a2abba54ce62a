"""The season as a gardener pins it up: the sentence first, then each zone's weeks, then what else would be."""

from rich.console import Console
from rich.table import Table

from brimful.design.season.model import SeasonWorked, ZoneSeason
from brimful.findings import Finding
from brimful.quantities import Dimension, System, show, show_number, unit_of
from brimful.render.as_text import finding_lines
from brimful.render.markup import as_words
from brimful.render.paper import terminal, text_of
from brimful.render.summary import COLOURS, titled_table
from brimful.render.words import MONTHS

BARS = "▁▂▃▄▅▆▇█"


def show_season(season: SeasonWorked, findings: tuple[Finding, ...]) -> None:
    """Print the season to the terminal; on a narrow or piped one it stays readable."""
    print_season(season, findings, terminal())


def season_text(season: SeasonWorked, findings: tuple[Finding, ...]) -> str:
    """The season as plain text, as wide as a printed page."""
    return text_of(lambda console: print_season(season, findings, console))


def print_season(season: SeasonWorked, findings: tuple[Finding, ...], console: Console) -> None:
    """Print the season to a console."""
    said = [answer(season, zone, _system(season)) for zone in season.zones]
    season = as_words(season)
    system = _system(season)
    console.print(f"[bold]{season.title}[/bold]")
    for sentence in said:
        console.print(sentence, markup=False)
    if findings:
        console.print("\nTo mind", style="bold")
    for finding in findings:
        console.print(*finding_lines([finding]), style=COLOURS[finding.severity], markup=False)
    for zone in season.zones:
        console.print(_weeks(zone, system))
        console.print(_ways(zone, season, system))
        console.print(_thirst(zone, system))
        console.print(_survival(zone))
    if season.timetable:
        console.print(_timetable(season))
    if season.sun:
        console.print(_sun(season))
    console.print(_frosts(season, system))
    if season.frost_free is not None:
        console.print(_frost_free(season), markup=False)
    console.print(f"Weather: {season.weather}.", style="dim", markup=False)
    for filled in season.filled:
        console.print(f"  {filled}", style="dim", markup=False)
    console.print(f"{len(season.assumptions)} assumptions; season --json and design list them.", style="dim")


def _system(season: SeasonWorked) -> System:
    return System.METRIC if season.units == "metric" else System.US


def answer(season: SeasonWorked, zone: ZoneSeason, system: System) -> str:
    """The sentences a person would say of a zone's season."""
    planned, left, _ = zone.ways
    worst = max(zone.weeks, key=lambda week: week.zone_l)
    if not worst.minutes_per_start:
        return f"{zone.zone}: from {season.first_day} to {season.last_day} rain and the mix bring all the plants want."
    litres = show(planned.zone_l, Dimension.VOLUME, system)
    cost = f" ({season.currency}{planned.cost_money:.2f})" if planned.cost_money is not None else ""
    return (
        f"{zone.zone}: from {season.first_day} to {season.last_day} set the timer each week; the most is "
        f"{worst.starts_per_day_count} × {worst.minutes_per_start} min a day in the week of {worst.from_day}. The "
        f"season takes {litres}{cost}, {100 * zone.saved_share:.0f} % less than one setting made for the worst week. "
        f"Set once in spring and left, {_dry(left.worst_week_stress_share)}."
    )


def _dry(share: float) -> str:
    """In how many years some container runs dry."""
    years = round(100 * share)
    return f"some container runs dry in {years} years of 100" if years else "no container runs dry"


NO_START = (
    "No start: the mix, soaked on planting day, and rain carry the plants that week. The minutes of `design` bring "
    "what they take in a day, whatever the mix still holds and without rain: they are more."
)
"""What a reader asks who comes from the design's minutes to weeks without a start."""
SPRING = "Set once in spring: the longer of the first two settings that water at all."


def _weeks(zone: ZoneSeason, system: System) -> Table:
    volume = unit_of(Dimension.VOLUME, system)
    most = max(week.zone_l for week in zone.weeks) or 1.0
    table = titled_table(
        f"\nWeeks of {zone.zone}", ["week of", ""], ["starts", "minutes each", f"zone, {volume} a week"]
    )
    if not all(week.minutes_per_start for week in zone.weeks):
        table.caption, table.caption_justify = f"{NO_START}\n", "left"
    for name in ("chance of stress", "drains"):
        table.add_column(name, justify="right")
    for week in zone.weeks:
        bar = BARS[max(0, min(7, round(8 * week.zone_l / most) - 1))]
        stress, drains = f"{100 * week.stress_chance_share:.0f} %", f"{100 * week.drained_share:.0f} %"
        litres = show_number(week.zone_l, Dimension.VOLUME, system)
        mark = "" if week.met else " !"
        starts, minutes = str(week.starts_per_day_count), str(week.minutes_per_start)
        table.add_row(week.from_day + mark, bar, starts, minutes, litres, stress, drains)
    return table


def _ways(zone: ZoneSeason, season: SeasonWorked, system: System) -> Table:
    head = [f"season, {unit_of(Dimension.VOLUME, system)}", "worst week's stress", "drains", "thirst met"]
    if any(way.cost_money is not None for way in zone.ways):
        head.append("cost")
    table = titled_table("What the season is like when the timer is", [""], head)
    table.caption, table.caption_justify = f"{SPRING}\n", "left"
    for way in zone.ways:
        cost = () if way.cost_money is None else (f"{season.currency}{way.cost_money:.2f}",)
        shares = (way.worst_week_stress_share, way.drained_share, way.used_share)
        litres = show_number(way.zone_l, Dimension.VOLUME, system)
        table.add_row(way.way, litres, *(f"{100 * share:.0f} %" for share in shares), *cost)
    return table


def _thirst(zone: ZoneSeason, system: System) -> Table:
    """Litres a day by row and month, of the row's sunniest container."""
    months = list(dict.fromkeys(one.month for one in zone.thirst))
    table = titled_table(
        f"What one container wants on a mean day, {unit_of(Dimension.VOLUME, system)}",
        ["row"],
        ["plants", "place", *(MONTHS[m - 1] for m in months)],
    )
    for row in dict.fromkeys(one.row for one in zone.thirst):
        mine = [one for one in zone.thirst if one.row == row]
        litres = (show_number(one.demand_l_day, Dimension.VOLUME, system) for one in mine)
        table.add_row(row, f"× {mine[0].plant_factor:.2f}", f"× {mine[0].microclimate_factor:.2f}", *litres)
    return table


def _frost_free(season: SeasonWorked) -> str:
    """What frost leaves of the year, beside what the plan takes."""
    free = season.frost_free
    assert free is not None
    return (
        f"Nine springs in ten have no frost after {free.first_day}, nine autumns none before {free.last_day} "
        f"({free.source}). The plan's season runs from {season.first_day} to {season.last_day}; planting_day and "
        "season_end under [site] change it."
    )


def _survival(zone: ZoneSeason) -> Table:
    months = list(dict.fromkeys(one.month for one in zone.survival))
    table = titled_table("Days a full container lasts if the zone stops", ["row"], [MONTHS[m - 1] for m in months])
    for row in dict.fromkeys(one.row for one in zone.survival):
        table.add_row(row, *(str(one.lasts_days) for one in zone.survival if one.row == row))
    return table


def _timetable(season: SeasonWorked) -> Table:
    table = titled_table("The day in the thirstiest week", ["zone"], ["begins", "ends"])
    for start in season.timetable:
        table.add_row(start.zone, start.begins, start.ends)
    return table


def _sun(season: SeasonWorked) -> Table:
    months = list(dict.fromkeys(one.month for zone in season.zones for one in zone.survival))
    names = ["row", "light of the season", "darkest container"]
    table = titled_table(
        "Hours of direct sun, sky clear, mean of the month", names, [*(MONTHS[m - 1] for m in months), "sky"]
    )
    for sun in season.sun:
        hours = [f"{sun.hours_by_month[m - 1]:.1f}" for m in months]
        least = f"{min(sun.container_season_hours):.1f} h, {sun.darkest_light}"
        table.add_row(sun.row, sun.light, least, *hours, f"{100 * sun.sky_view_share:.0f} %")
    return table


def _frosts(season: SeasonWorked, system: System) -> Table:
    head = ["last, 1 year in 2", "last, 9 in 10 by", "first, 1 year in 2", "first, 1 in 10 by"]
    table = titled_table("Frost at the weather station", ["at"], head)
    for frost in season.frosts:
        at = show(frost.threshold_c, Dimension.TEMPERATURE, system)
        table.add_row(at, frost.last_middle, frost.last_safe, frost.first_middle, frost.first_safe)
    froms = dict.fromkeys((frost.source, frost.years_count) for frost in season.frosts)
    told = (f"{source}, {years} {'year' if years == 1 else 'years'}" for source, years in froms)
    table.caption, table.caption_justify = f"From {'; '.join(told)}.\n", "left"
    return table
