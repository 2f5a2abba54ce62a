"""`brimful check PLAN`: every problem of a plan at once."""

import json as json_text
import sys
from pathlib import Path

import click


@click.command("check")
@click.argument("plan", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the findings as JSON.")
def command(plan: Path, as_json: bool) -> None:
    """List every problem of PLAN: where it stands, what was given, what was expected, what to do."""
    from brimful.render.as_json import to_data
    from brimful.render.as_text import finding_lines
    from brimful.services import work_out

    answer = work_out(plan)
    if as_json:
        click.echo(json_text.dumps(to_data(answer.findings), indent=1, ensure_ascii=False))
    else:
        for line in finding_lines(answer.findings):
            click.echo(line)
        count = len(answer.findings)
        click.echo("Nothing to mend." if not count else f"{count} finding{'s' if count > 1 else ''}.")
    sys.exit(0 if answer.sound else 1)
