"""`brimful weather PLAN`: fetch daily weather for the plan's place into a file beside it."""

import datetime
import sys
from pathlib import Path

import click

from brimful.cli.day import Day


@click.command("weather")
@click.argument("plan", type=click.Path(path_type=Path))
@click.option("--from", "first", type=Day(), help="First day of an archive, 2015-01-01.")
@click.option("--to", "last", type=Day(), help="Last day of an archive.")
@click.option("-o", "--out", type=click.Path(path_type=Path), help="File to write; never over one that is there.")
def command(plan: Path, first: datetime.datetime | None, last: datetime.datetime | None, out: Path | None) -> None:
    """Fetch the forecast for PLAN's place, or with --from and --to an archive, and save it as a file."""
    from brimful.services import fetch_weather

    if (first is None) != (last is None):
        raise click.UsageError("give both --from and --to, or neither for the forecast")
    name = out or plan.parent / ("weather-forecast.json" if first is None else f"weather-{first:%Y}-{last:%Y}.json")
    if name.exists():
        click.echo(f"{name} is there already and stays as it is. Give another name with -o.", err=True)
        sys.exit(1)
    days = (first.date(), last.date()) if first is not None and last is not None else None
    fetch_weather(plan, name, days)
    click.echo(f'Wrote {name}. Name it in the plan: under [site], weather = "{name.name}"')
