"""`brimful shop PLAN`: what to buy, and how to cut the tube."""

from pathlib import Path

import click

from brimful.cli.care_door import show_part
from brimful.cli.design import json_option, out_option, units_option


@click.command("shop")
@click.argument("plan", type=click.Path(path_type=Path))
@json_option
@out_option
@units_option
def command(plan: Path, as_json: bool, out: Path | None, units: str | None) -> None:
    """What to buy for PLAN and how to cut tube from its rolls, with prices, spares and what is on hand."""
    show_part(plan, "shop", as_json=as_json, out=out, units=units)
