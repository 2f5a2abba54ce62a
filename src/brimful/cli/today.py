"""`brimful today PLAN`: what to run, what is due, what to look at."""

import datetime
import json
import sys
from pathlib import Path

import click

from brimful.cli.day import Day
from brimful.cli.design import json_option, units_option


@click.command("today")
@click.argument("plan", type=click.Path(path_type=Path))
@click.option("--on", type=Day(), help="Another day than today, as 2026-07-15.")
@json_option
@units_option
def command(plan: Path, on: datetime.datetime | None, as_json: bool, units: str | None) -> None:
    """Say for PLAN what to run today, what is due and which container to look at first, from the journal."""
    from brimful.render.as_text import finding_lines
    from brimful.services import work_out_today

    answer = work_out_today(plan, units, on=on.date() if on is not None else None)
    if answer.today is None:
        click.echo("\n".join(finding_lines(answer.findings)), err=True)
        click.echo("Mend these first, then run this again.", err=True)
        sys.exit(1)
    if as_json:
        from brimful.render.as_json import to_data

        click.echo(json.dumps(to_data(answer.today), indent=1, ensure_ascii=False))
    else:
        from brimful.render.today import show_today

        show_today(answer.today)
    sys.exit(0 if answer.sound else 1)
