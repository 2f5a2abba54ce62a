"""`brimful new FILE`: a commented starter plan."""

import sys
from pathlib import Path

import click


@click.command("new")
@click.argument("file", type=click.Path(path_type=Path))
def command(file: Path) -> None:
    """Write a commented starter plan to FILE; never over a file that is there."""
    from brimful.services import write_starter

    try:
        write_starter(file)
    except FileExistsError:
        click.echo(f"{file} is there already and stays as it is. Give another name.", err=True)
        sys.exit(1)
    except OSError as error:
        click.echo(f"{file} cannot be written: {error.strerror}.", err=True)
        sys.exit(1)
    click.echo(f"Wrote {file}. Change it to your place, then: brimful check {file}; brimful design {file}")
