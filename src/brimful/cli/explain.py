"""`brimful explain PLAN FIGURE`: how a figure came about."""

import sys
from pathlib import Path

import click


@click.command("explain")
@click.argument("plan", type=click.Path(path_type=Path))
@click.argument("figure", required=False)
def command(plan: Path, figure: str | None) -> None:
    """Show how FIGURE of PLAN came about: formula, inputs, source. Without FIGURE, list the figures there are."""
    from brimful.render.as_text import finding_lines
    from brimful.render.explain import working_lines
    from brimful.services import figures_like, work_out_care

    answer = work_out_care(plan)
    if answer.care is None:
        click.echo("\n".join(finding_lines(answer.findings)), err=True)
        sys.exit(1)
    if figure is None:
        click.echo("\n".join(answer.workings))
        return
    found, near = figures_like(answer.workings, figure)
    if not found:
        hint = f" Did you mean {' or '.join(near)}?" if near else " `brimful explain PLAN` lists the figures there are."
        click.echo(f'No figure is named "{figure}".{hint}', err=True)
        sys.exit(1)
    click.echo("\n\n".join("\n".join(working_lines(one)) for one in found))
