"""`brimful feed PLAN`: the feed plan of the season."""

from pathlib import Path

import click

from brimful.cli.care_door import show_part
from brimful.cli.design import json_option, out_option, units_option


@click.command("feed")
@click.argument("plan", type=click.Path(path_type=Path))
@json_option
@out_option
@units_option
def command(plan: Path, as_json: bool, out: Path | None, units: str | None) -> None:
    """How to feed PLAN: what to weigh, what goes in the tank each week, coated feed, the nitrogen of the season."""
    show_part(plan, "feed", as_json=as_json, out=out, units=units)
