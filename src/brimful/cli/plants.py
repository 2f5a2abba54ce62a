"""`brimful plants PLAN`: layout, build order, growth, colours, bloom, orders and upkeep."""

import json as json_text
import sys
from pathlib import Path

import click

from brimful.cli.design import units_option


@click.command("plants")
@click.argument("plan", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the whole planting, as JSON.")
@units_option
def command(plan: Path, as_json: bool, units: str | None) -> None:
    """Work out the planting of PLAN: where each plant stands, how it grows, what to order."""
    from brimful.render.as_json import to_data
    from brimful.render.as_text import finding_lines
    from brimful.services import work_out_planting

    answer = work_out_planting(plan, units)
    if answer.planting is None:
        click.echo("\n".join(finding_lines(answer.findings)), err=True)
        click.echo("Mend these first, then run this again.", err=True)
        sys.exit(1)
    if as_json:
        click.echo(json_text.dumps(to_data(answer.planting), indent=1, ensure_ascii=False))
    else:
        from brimful.render.planting import show_planting

        show_planting(answer.planting, answer.findings)
    sys.exit(0 if answer.sound else 1)
