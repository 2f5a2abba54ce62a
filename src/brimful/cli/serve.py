"""`brimful serve PLAN`: the plan as a page in the browser."""

import sys
from pathlib import Path

import click

PORT = 8477


@click.command("serve")
@click.argument("plan", type=click.Path(path_type=Path))
@click.option("--port", type=click.IntRange(0, 65535), default=PORT, show_default=True, help="Where it listens.")
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
def command(plan: Path, port: int, no_browser: bool) -> None:
    """Open PLAN, or a folder of plans, as a page in the browser; nobody but this machine can reach it."""
    from brimful.web.serving import plans_at, serve

    plans = plans_at(plan)
    if not plans:
        click.echo(f"{plan}: no plan here. `brimful new square.toml` writes one to start from.", err=True)
        sys.exit(1)
    serve(plans, port=port, browser=not no_browser)
