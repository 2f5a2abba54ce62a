"""What can stand in for a plant, as a gardener reads it."""

from rich.console import Console
from rich.table import Table

from brimful.design.planting.model import EffectWorked, SwapWorked
from brimful.findings import Finding
from brimful.quantities import Dimension, System, show
from brimful.render.as_text import finding_lines
from brimful.render.markup import as_words
from brimful.render.summary import COLOURS, titled_table
from brimful.render.words import MONTHS

MOST_SHOWN = 8
CAN_BE_SAID = 6


def show_swaps(swaps: tuple[SwapWorked, ...], findings: tuple[Finding, ...], system: System) -> None:
    """Print what can stand in for a plant."""
    console = console_of()
    print_findings(console, findings)
    for swap in as_words(swaps):
        print_swap(console, swap, system)


def print_swap(console: Console, swap: SwapWorked, system: System) -> None:
    """One plant's stand-ins: what each changes, and how its score comes about."""
    few = len(swap.containers) <= CAN_BE_SAID
    where = ", ".join(swap.containers) if few else f"{' and '.join(swap.rows)}, {len(swap.containers)} containers"
    console.print(f"\n[bold]Instead of {swap.count} {swap.plant} in {where}[/bold]: {swap.why}.")
    if not swap.substitutes:
        console.print("Nothing in the catalogue can stand in.")
    else:
        console.print(_effects(swap, system))
        console.print(_parts(swap))
    for one in swap.substitutes[:MOST_SHOWN]:
        for problem in one.effect.does_not_fit:
            console.print(f"  {one.plant} does not fit as it is: {problem}")
    total = f"{swap.stopped_count} others cannot. Sun {swap.sun_h:.1f} h: {swap.sun_taken_as}."
    console.print(total, style="dim")


def console_of() -> Console:
    """A console that stays readable where it is piped."""
    console = Console(highlight=False)
    return console if console.is_terminal else Console(highlight=False, width=110)


def print_findings(console: Console, findings: tuple[Finding, ...]) -> None:
    """What is to be minded, worst first."""
    if findings:
        console.print("\nTo mind", style="bold")
    for finding in findings:
        console.print(*finding_lines([finding]), style=COLOURS[finding.severity], markup=False)


def _effects(swap: SwapWorked, system: System) -> Table:
    """How it is now, and what each stand-in makes of one container and of the bill of all."""
    table = titled_table(
        "One container at mid-season, and the bill of all", ("plant",), ("score", "each", "water a day", "bill")
    )
    for name in ("feed", "deadhead", "trim", "bloom"):
        table.add_column(name)
    table.columns[0].min_width = _widest(swap)
    table.add_row(f"{swap.plant}, now", "", str(swap.count), *_figures(swap, swap.now, system))
    for one in swap.substitutes[:MOST_SHOWN]:
        table.add_row(one.plant, f"{one.score:.2f}", str(one.count), *_figures(swap, one.effect, system))
    return table


def _figures(swap: SwapWorked, effect: EffectWorked, system: System) -> tuple[str, ...]:
    water = show(effect.water_l_day, Dimension.VOLUME, system)
    change = effect.bill_change_money
    sign = "" if change is None or change == 0.0 else "+" if change > 0 else "−"
    bill = "·" if change is None or effect is swap.now else f"{sign}{swap.currency}{abs(change):,.2f}"
    return water, bill, effect.feed, effect.deadhead, effect.trim, _months(effect.bloom_months)


def _parts(swap: SwapWorked) -> Table:
    parts = swap.substitutes[0].parts
    table = titled_table("How the score comes about", ("plant",), tuple(part.part for part in parts))
    table.columns[0].min_width = _widest(swap)
    table.add_row("each 0 to 1, times", *(f"{part.weight:.2f}" for part in parts))
    for one in swap.substitutes[:MOST_SHOWN]:
        table.add_row(one.plant, *(f"{part.score:.2f}" for part in one.parts))
    return table


def _widest(swap: SwapWorked) -> int:
    return max(len(f"{swap.plant}, now"), *(len(one.plant) for one in swap.substitutes[:MOST_SHOWN]), 18)


def _months(months: tuple[str, ...]) -> str:
    """The first and the last month of bloom, as "Jun to Oct"."""
    names = [MONTHS[int(month[5:7]) - 1] for month in months]
    return "none" if not names else names[0] if len(names) == 1 else f"{names[0]} to {names[-1]}"
