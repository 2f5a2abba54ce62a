"""What `shop`, `work` and `feed` share: work out one part of build and care, show it or write it."""

import json as json_text
import sys
from pathlib import Path
from typing import Literal

import click

Part = Literal["shop", "work", "feed"]


def show_part(plan: Path, part: Part, *, as_json: bool, out: Path | None, units: str | None) -> None:
    """Work one part out and show it, or say what is wrong; exit code 1 where it cannot be worked out."""
    from brimful.render.as_text import finding_lines
    from brimful.services import work_out_care, write_care

    answer = work_out_care(plan, units, parts=(part,))
    if answer.care is None:
        click.echo("\n".join(finding_lines(answer.findings)), err=True)
        click.echo("Mend these first, then run this again.", err=True)
        sys.exit(1)
    if out is not None:
        try:
            for path in write_care(answer, out, part):
                click.echo(f"Wrote {path}", err=True)
        except OSError as error:
            click.echo(f"{out} cannot be written: {error.strerror}.", err=True)
            sys.exit(1)
    if as_json:
        from brimful.render.as_json import to_data

        click.echo(json_text.dumps(to_data(answer.care), indent=1, ensure_ascii=False))
    else:
        from brimful.render.care.pages import show_part_page

        show_part_page(answer.care, answer.findings, part)
    sys.exit(0 if answer.sound else 1)
