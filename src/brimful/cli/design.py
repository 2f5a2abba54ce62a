"""`brimful design PLAN`: the whole water answer."""

import sys
from pathlib import Path

import click

json_option = click.option("--json", "as_json", is_flag=True, help="Print everything worked out, as JSON.")
out_option = click.option("--out", type=click.Path(path_type=Path), help="Write the files into this folder.")
units_option = click.option(
    "--units",
    type=click.Choice(["US", "metric"], case_sensitive=False),
    help="Show in these units, whatever the plan says.",
)


@click.command("design")
@click.argument("plan", type=click.Path(path_type=Path))
@json_option
@out_option
@units_option
def command(plan: Path, as_json: bool, out: Path | None, units: str | None) -> None:
    """Work PLAN out: mix, tube, even water, run times, with every warning in plain words."""
    show_design(plan, as_json=as_json, out=out, units=units)


def show_design(plan: Path, *, as_json: bool, out: Path | None, units: str | None) -> None:
    """Work a plan out and show it, or say what is wrong with it; exit code 1 where it cannot be worked out."""
    from brimful.services import work_out, write_design

    answer = work_out(plan, units)
    if answer.design is None:
        from brimful.render.as_text import finding_lines

        click.echo("\n".join(finding_lines(answer.findings)), err=True)
        click.echo("Mend these first, then run this again.", err=True)
        sys.exit(1)
    if out is not None:
        try:
            for path in write_design(answer, out):
                click.echo(f"Wrote {path}", err=True)
        except OSError as error:
            click.echo(f"{out} cannot be written: {error.strerror}.", err=True)
            sys.exit(1)
    if as_json:
        import json

        from brimful.render.as_json import to_data

        click.echo(json.dumps(to_data(answer.design), indent=1, ensure_ascii=False))
    else:
        from brimful.render.summary import show_summary

        show_summary(answer.design, answer.findings, units)
    sys.exit(0 if answer.sound else 1)
