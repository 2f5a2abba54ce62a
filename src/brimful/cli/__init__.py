"""The command line: one module a command; each says in its own words what it does."""

import os
import sys
from io import TextIOWrapper

import click

from brimful.cli import check, demo, design, explain, new
from brimful.errors import BrimfulError

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # our arrays are small; starting threads costs more than it saves


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 110})
@click.version_option(package_name="brimful", message="Brimful %(version)s")
def brimful() -> None:
    """A season of planted containers on drip irrigation, worked out from one plan file."""


for module in (new, check, design, explain, demo):
    brimful.add_command(module.command)


def main() -> None:
    """Run the command line; what is wrong with the world is said in one sentence, with exit code 1."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that lacks a sign shows "?" in its place
    try:
        brimful()
    except BrimfulError as error:
        click.echo(str(error), err=True)
        sys.exit(1)
