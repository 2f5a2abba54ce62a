"""`brimful report PLAN`: the season looked back on."""

import datetime
import json
import sys
from pathlib import Path

import click

from brimful.cli.day import Day
from brimful.cli.design import json_option, units_option


@click.command("report")
@click.argument("plan", type=click.Path(path_type=Path))
@click.option("--on", type=Day(), help="Up to another day than today, as 2026-10-20.")
@json_option
@units_option
def command(plan: Path, on: datetime.datetime | None, as_json: bool, units: str | None) -> None:
    """Look back on PLAN's season: water against plan, what failed, what was learned, what to change next year."""
    from brimful.render.as_text import finding_lines
    from brimful.services import work_out_report

    answer = work_out_report(plan, units, on=on.date() if on is not None else None)
    if answer.report is None:
        click.echo("\n".join(finding_lines(answer.findings)), err=True)
        click.echo("Mend these first, then run this again.", err=True)
        sys.exit(1)
    if as_json:
        from brimful.render.as_json import to_data

        click.echo(json.dumps(to_data(answer.report), indent=1, ensure_ascii=False))
    else:
        from brimful.render.report import show_report

        show_report(answer.report)
