"""`brimful draw PLAN --out DIR`: every drawing and chart as SVG."""

import sys
from pathlib import Path

import click

from brimful.cli.design import units_option


@click.command("draw")
@click.argument("plan", type=click.Path(path_type=Path))
@click.option("--out", type=click.Path(path_type=Path), required=True, help="Write the drawings into this folder.")
@units_option
def command(plan: Path, out: Path, units: str | None) -> None:
    """Draw PLAN: the run in elevation by weeks, each container from above and cut through, each zone, the charts."""
    from brimful.render.as_text import finding_lines
    from brimful.services import see, write_drawings

    answer = see(plan, units)
    if answer.scene is None:
        click.echo("\n".join(finding_lines(answer.findings)), err=True)
        click.echo("Mend these first, then run this again.", err=True)
        sys.exit(1)
    try:
        for path in write_drawings(answer.scene, out):
            click.echo(f"Wrote {path}", err=True)
    except OSError as error:
        click.echo(f"{out} cannot be written: {error.strerror}.", err=True)
        sys.exit(1)
