"""`brimful season PLAN`: the timer's setting for each zone and week, and what it risks."""

import json as json_text
import sys
from pathlib import Path

import click

from brimful.cli.design import json_option, out_option, units_option


@click.command("season")
@click.argument("plan", type=click.Path(path_type=Path))
@json_option
@out_option
@units_option
def command(plan: Path, as_json: bool, out: Path | None, units: str | None) -> None:
    """Work out PLAN week by week: minutes and starts that keep every container alive, at a stated risk."""
    from brimful.services import work_out_season, write_season

    answer = work_out_season(plan, units)
    if answer.season is None:
        from brimful.render.as_text import finding_lines

        click.echo("\n".join(finding_lines(answer.findings)), err=True)
        click.echo("Mend these first, then run this again.", err=True)
        sys.exit(1)
    if out is not None:
        try:
            for path in write_season(answer, out):
                click.echo(f"Wrote {path}", err=True)
        except OSError as error:
            click.echo(f"{out} cannot be written: {error.strerror}.", err=True)
            sys.exit(1)
    if as_json:
        from brimful.render.as_json import to_data

        click.echo(json_text.dumps(to_data(answer.season), indent=1, ensure_ascii=False))
    else:
        from brimful.render.season import show_season

        show_season(answer.season, answer.findings)
    sys.exit(0 if answer.sound else 1)
