"""`brimful note PLAN PLACE WHAT…`: write something down in the plan's journal; or list, hand on, bring in."""

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import click

from brimful.records import record


@record
class Asked:
    """The options of the command."""

    by: str
    at: str
    corrects: str
    withdraw: str | None
    listed: bool
    raw: bool
    as_json: bool
    export: Path | None
    lines: Path | None


@click.command("note")
@click.argument("plan", type=click.Path(path_type=Path))
@click.argument("place", default="")
@click.argument("what", nargs=-1)
@click.option("--by", default="", help="Who saw or did it.")
@click.option("--at", default="", help='When, as "2026-07-02 6:40"; now where you leave it out.')
@click.option("--corrects", default="", help="Id of an entry that this one stands for.")
@click.option("--withdraw", help="Id of an entry to take out.")
@click.option("--list", "listed", is_flag=True, help="Show the entries, of PLACE where it is given.")
@click.option("--raw", is_flag=True, help="List corrections beside what they correct.")
@click.option("--json", "as_json", is_flag=True, help="List as JSON lines.")
@click.option("--export", type=click.Path(path_type=Path), help="Write every entry to a file; never over one there.")
@click.option("--import", "lines", type=click.Path(path_type=Path), help="Bring in a file that --export wrote.")
def command(plan: Path, place: str, what: tuple[str, ...], **options: Any) -> None:
    """Write down WHAT you saw or did at PLACE of PLAN: a container, a row, a zone, or "all".

    For example: brimful note square.toml "water side 3" dry
    """
    asked = Asked(**options)
    if asked.export is not None:
        _export(plan, asked.export)
    elif asked.lines is not None:
        _import(plan, asked.lines)
    elif asked.listed or asked.raw or asked.as_json:
        click.echo("\n".join(_listed(plan, place, asked)))
    elif asked.withdraw:
        _take_down(plan, "", (), asked)
    elif place and what:
        _take_down(plan, place, what, asked)
    else:
        raise click.UsageError("give PLACE and WHAT, or --list, --export, --import or --withdraw")


def _take_down(plan: Path, place: str, what: tuple[str, ...], asked: Asked) -> None:
    from brimful.journal import told_entry
    from brimful.services import NoteWish, note, system_of, withdraw

    if asked.withdraw:
        noted = withdraw(plan, asked.withdraw, asked.by)
    else:
        noted = note(plan, NoteWish(place, " ".join(what), asked.by, asked.at, asked.corrects))
    click.echo(f"Noted: {told_entry(noted.entry, system_of(plan))}")
    for remark in noted.remarks:
        click.echo(f"To mind: {remark}.", err=True)


def _listed(plan: Path, place: str, asked: Asked) -> Iterator[str]:
    from brimful.journal import told_entry
    from brimful.journal.lines import to_line
    from brimful.services import entries_of, system_of

    entries = entries_of(plan, place=place, raw=asked.raw)
    if asked.as_json:
        yield from map(to_line, entries)
    else:
        system = system_of(plan)
        yield from (told_entry(entry, system) for entry in entries) if entries else ("Nothing is noted.",)


def _export(plan: Path, out: Path) -> None:
    from brimful.services import export_journal

    if out.exists():
        click.echo(f"{out} is there already and stays as it is. Give another name.", err=True)
        sys.exit(1)
    click.echo(f"Wrote {export_journal(plan, out)} entries to {out}.")


def _import(plan: Path, lines: Path) -> None:
    from brimful.services import import_journal

    came = import_journal(plan, lines)
    appended = came.appended
    click.echo(f"Brought in {len(appended.new)} entries; {len(appended.known)} were there already.")
    for id_ in appended.differing:
        click.echo(f"{id_} is there already with other content, which stays.", err=True)
    for said in (*came.problems, *appended.remarks):
        click.echo(f"{lines.name}: {said}.", err=True)
    sys.exit(1 if came.problems or appended.differing else 0)
