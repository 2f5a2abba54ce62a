"""`brimful serve PLAN`: the plan as a page in the browser."""

import os
import sys
from pathlib import Path

import click

PORT = 8477


@click.command("serve")
@click.argument("plan", type=click.Path(path_type=Path))
@click.option(
    "--port", type=click.IntRange(0, 65535), default=PORT, show_default=True, help="Where it listens; 0 for any."
)
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
@click.option("--share", is_flag=True, help="Let others on the network in who know the pass phrase.")
def command(plan: Path, port: int, no_browser: bool, share: bool) -> None:
    """Open PLAN, or a folder of plans, as a page in the browser; without --share nobody but this machine can reach it.

    The pass phrase is asked for, or taken from the environment as BRIMFUL_PHRASE; without one, one is made.
    """
    if not plan.exists():
        click.echo(f"{plan}: no plan here. `brimful new square.toml` writes one to start from.", err=True)
        sys.exit(1)
    phrase, made = _phrase() if share else ("", False)
    from brimful.web.serving import serve

    serve([plan], port=port, browser=not no_browser, share=phrase, tell_phrase=made)


def _phrase() -> tuple[str, bool]:
    """The pass phrase, and whether it was made here."""
    from brimful.web.share import LEAST_LETTERS, made_phrase

    given = os.environ.get("BRIMFUL_PHRASE", "").strip()
    if not given and sys.stdin.isatty():
        given = click.prompt(
            "Pass phrase (leave empty to have one made)", default="", hide_input=True, show_default=False
        )
        given = given.strip()
    if not given:
        return made_phrase(), True
    if len(given) < LEAST_LETTERS:
        click.echo(f"The pass phrase has {len(given)} letters; {LEAST_LETTERS} or more keep guesses out.", err=True)
        sys.exit(1)
    return given, False
