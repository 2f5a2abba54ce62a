"""The command line: one module a command; each says in its own words what it does."""

import atexit
import gc
import os
import sys
from io import TextIOWrapper
from typing import Any

import click

from brimful.cli import (
    book,
    check,
    demo,
    design,
    draw,
    explain,
    feed,
    new,
    note,
    plants,
    report,
    season,
    serve,
    shop,
    swap,
    today,
    weather,
    work,
)
from brimful.errors import BrimfulError

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # our arrays are small; starting threads costs more than it saves


class Doors(click.Group):
    """The commands; what is wrong with the world is said in one sentence, with exit code 1."""

    def invoke(self, ctx: click.Context) -> Any:
        """Run a command."""
        try:
            return super().invoke(ctx)
        except BrimfulError as error:
            click.echo(str(error), err=True)
            ctx.exit(1)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """Every command in the order in which a season needs them, its first sentence whole."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, one.get_short_help_str(limit=1000)) for name, one in self.commands.items()])


@click.group(cls=Doors, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 110})
@click.version_option(package_name="brimful", message="Brimful %(version)s")
def brimful() -> None:
    """A season of planted containers on drip irrigation, worked out from one plan file."""


for module in (
    new, check, design, season, weather, plants, swap, shop, work, feed,
    draw, book, serve, explain, note, today, report, demo,
):  # fmt: skip
    brimful.add_command(module.command)


def main() -> None:
    """Run the command line; a terminal that lacks a sign shows "?" in its place."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")
    gc.set_threshold(50_000, 20, 20)  # a command makes much and drops little: looking for what it dropped costs a tenth
    atexit.register(gc.freeze)  # what is left at the end goes with the process
    brimful()
