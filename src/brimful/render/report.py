"""The season's report as a person reads it: water, what failed, what was learned, what to change."""

import re
from collections.abc import Iterator
from datetime import date

from rich.console import Console

from brimful.design.today.report import FailureReport, RowReport, SeasonReport, ZoneReport
from brimful.quantities import Dimension, System, show
from brimful.render.markup import as_words
from brimful.render.paper import terminal, text_of
from brimful.render.words import long_day, zone_words

EMPTY = "Nothing was written down. What the crew notes with `brimful note` will stand here: water, failures, lessons."
TABLE = "brimful-microclimates.csv"


def show_report(report: SeasonReport) -> None:
    """Print the report to the terminal; on a narrow or piped one it stays readable."""
    print_report(report, terminal())


def report_text(report: SeasonReport) -> str:
    """The report as plain text, as wide as a printed page."""
    return text_of(lambda console: print_report(report, console))


def print_report(report: SeasonReport, console: Console) -> None:
    """Print the report to a console."""
    until = f"  [dim]{_span(report.first_day, report.last_day)}[/dim]" if report.last_day >= report.first_day else ""
    console.print(f"[bold]{as_words(report.title)}[/bold]{until}")
    for title, lines in chapters(report):
        if title:
            console.print(f"\n[bold]{title}[/bold]")
        for line in lines:
            console.print(line if not title else f"  {line}", markup=False)


def chapters(report: SeasonReport) -> Iterator[tuple[str, list[str]]]:
    """Title and lines of each part that has something to say."""
    system = System.METRIC if report.units == "metric" else System.US
    if report.last_day < report.first_day:
        yield "", [f"Planting is on {long_day(report.first_day)}: there is no season yet to look back on."]
        return
    if not report.entries_count:
        yield "", [EMPTY]
    else:
        kinds = ", ".join(f"{count} × {kind}" for kind, count in report.entries_by_kind)
        yield "", [f"Entries: {kinds}."]
    parts = (
        ("Water", [zone_line(zone, system) for zone in report.zones]),
        ("What failed", [failure_line(one) for one in report.failures]),
        ("Replaced", list(report.replaced)),
        ("What the readings taught", [row_line(row) for row in report.rows if row.readings_count]),
        ("For the next plan", list(advice(report))),
    )
    yield from ((title, lines) for title, lines in parts if lines)


def zone_line(zone: ZoneReport, system: System) -> str:
    """Water given beside water planned, and how that is known."""
    planned, given = (show(litres, Dimension.VOLUME, system) for litres in (zone.planned_l, zone.given_l))
    share = f", {100 * zone.given_l / zone.planned_l:.0f} % of the plan" if zone.planned_l > 0 else ""
    days = (
        f"; written down on {zone.told_days_count} of {zone.watering_days_count} days" if zone.told_days_count else ""
    )
    return f"{zone_words(zone.zone)}: {given} of {planned} planned{share} (by {zone.told_from}{days})."


def failure_line(one: FailureReport) -> str:
    """Which container, when, what it was."""
    when = _span(one.first_day, one.last_day)
    what = one.cause if not one.reported else f"{one.cause}, “{one.reported}”" if one.cause else f"“{one.reported}”"
    return f"{one.container}: {what}, {when}; {'put right' if one.mended else 'not written down as put right'}."


def _span(first: date, last: date) -> str:
    return long_day(first) if first == last else f"{long_day(first)} to {long_day(last)}"


def row_line(row: RowReport) -> str:
    """Demand and supply of a row over the plan."""
    demand, supply = (
        f"{100 * mean:.0f} % ({100 * low:.0f} to {100 * high:.0f})"
        for mean, low, high in (
            (row.demand_factor, row.demand_low_factor, row.demand_high_factor),
            (row.supply_factor, row.supply_low_factor, row.supply_high_factor),
        )
    )
    readings = "1 reading" if row.readings_count == 1 else f"{row.readings_count} readings"
    return f"{row.row}: drew {demand} of what was planned and got {supply} of its water; {readings}."


def advice(report: SeasonReport) -> Iterator[str]:
    """What to write into the next plan, where the readings are sure enough."""
    for row in report.rows:
        if row.surroundings_next_factor is None:
            continue
        key = f"{re.sub(r'[^a-z0-9]+', '-', row.row.lower()).strip('-') or 'row'}-learned"
        factor = f"{row.surroundings_next_factor:.2f}"
        yield f'{row.row}: surroundings = "{key}" in its row, and in {TABLE} beside the plan the line'
        yield f'    {key},learned at {row.row},{factor},{factor},{factor},"journal of {report.last_day.year}",read'
        yield f"    (the factor was {row.surroundings_now_factor:.2f})"
    repeated = [one.container for one in report.failures]
    for name in dict.fromkeys(name for name in repeated if repeated.count(name) > 1):
        yield f"{name} failed {repeated.count(name)} times: give it a new feeder and emitters."
