"""`brimful book PLAN -o FILE.pdf`: the book the crew takes outside."""

import sys
from pathlib import Path

import click

from brimful.cli.design import units_option

OUTDOOR_PT = 14.0


@click.command("book")
@click.argument("plan", type=click.Path(path_type=Path))
@click.option("-o", "--out", type=click.Path(path_type=Path), required=True, help="The PDF to write.")
@click.option("--paper", type=click.Choice(["letter", "a4"]), help="Paper; letter for US units, A4 for metric.")
@click.option("--large", is_flag=True, help="Large print, to be read outdoors.")
@click.option(
    "--address", default="", help="Where the plan's page is served: the labels' codes open a container there."
)
@units_option
def command(plan: Path, out: Path, paper: str | None, large: bool, address: str, units: str | None) -> None:
    """Print PLAN as a book: pictures, what to buy, build pages, run times for the wall, sheets to fill in, labels."""
    from brimful.render.as_text import finding_lines
    from brimful.services import BookWish, see, write_book

    answer = see(plan, units)
    if answer.scene is None:
        click.echo("\n".join(finding_lines(answer.findings)), err=True)
        click.echo("Mend these first, then run this again.", err=True)
        sys.exit(1)
    try:
        write_book(answer.scene, out, BookWish(paper, OUTDOOR_PT if large else None, address))
    except OSError as error:
        click.echo(f"{out} cannot be written: {error.strerror}.", err=True)
        sys.exit(1)
    click.echo(f"Wrote {out}", err=True)
