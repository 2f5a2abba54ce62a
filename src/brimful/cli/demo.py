"""`brimful demo`: the design of an invented place, to look at."""

from pathlib import Path

import click

from brimful.cli.design import json_option, out_option, show_design, units_option

EXAMPLES = ("alder_point_landing", "courthouse_square", "balcony")


@click.command("demo")
@click.option("--example", type=click.Choice(EXAMPLES), default=EXAMPLES[0], show_default=True, help="Which place.")
@click.option("--plan", "print_plan", is_flag=True, help="Print the plan file instead, to copy from.")
@json_option
@out_option
@units_option
def command(example: str, print_plan: bool, as_json: bool, out: Path | None, units: str | None) -> None:
    """Work out an invented place: a ferry landing, a desert square, or a balcony."""
    from brimful.services import example as example_path

    path = example_path(example)
    if print_plan:
        click.echo(path.read_text(encoding="utf-8"), nl=False)
        return
    show_design(path, as_json=as_json, out=out, units=units)
