"""`brimful swap PLAN TAXON`: what can stand in for a plant that cannot be had."""

import json as json_text
import sys
from pathlib import Path

import click

from brimful.cli.design import units_option


@click.command("swap")
@click.argument("plan", type=click.Path(path_type=Path))
@click.argument("taxon")
@click.option("--json", "as_json", is_flag=True, help="Print every stand-in with the parts of its score, as JSON.")
@units_option
def command(plan: Path, taxon: str, as_json: bool, units: str | None) -> None:
    """Rank what can stand in for TAXON in PLAN: parts of the score, and what changes in water, feed, bill and bloom."""
    from brimful.render.as_json import to_data
    from brimful.render.as_text import finding_lines
    from brimful.services import work_out_planting

    answer = work_out_planting(plan, units, swap=taxon)
    if not answer.swaps:
        click.echo("\n".join(finding_lines(answer.findings)), err=True)
        sys.exit(1)
    if as_json:
        click.echo(json_text.dumps(to_data(answer.swaps), indent=1, ensure_ascii=False))
    else:
        from brimful.quantities import System
        from brimful.render.swaps import show_swaps

        show_swaps(answer.swaps, (), System.METRIC if answer.units == "metric" else System.US)
