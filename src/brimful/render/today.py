"""Today as a person says it: how long to run, what is due, what to look at, and why it is not what the table says."""

from collections.abc import Iterator, Sequence

from rich.console import Console
from rich.table import Table

from brimful.design.today.model import BelievedWorked, ByHand, DueWorked, LookWorked, TodayWorked, ZoneToday
from brimful.quantities import Dimension, System, show
from brimful.render.markup import as_words
from brimful.render.paper import terminal, text_of
from brimful.render.summary import titled_table
from brimful.render.words import zone_words

SHOWN = 8
SURE = ((0.9, "almost surely"), (0.7, "very likely"), (0.5, "likely"), (0.0, "perhaps"))


def show_today(today: TodayWorked) -> None:
    """Print today to the terminal; on a narrow or piped one it stays readable."""
    print_today(today, terminal())


def today_text(today: TodayWorked) -> str:
    """Today as plain text, as wide as a printed page."""
    return text_of(lambda console: print_today(today, console))


def print_today(today: TodayWorked, console: Console) -> None:
    """Print today to a console."""
    system = System.METRIC if today.units == "metric" else System.US
    console.print(f"[bold]{as_words(today.title)}[/bold]  [dim]{today.on:%A}, {today.on.day} {today.on:%B %Y}[/dim]")
    for sentence in sentences(today, system):
        console.print(sentence, markup=False)
    for zone in today.zones:
        for reason in zone.why:
            console.print(f"  {reason}", style="dim", markup=False)
    _list(console, "Due", [due_words(one) for one in today.due])
    _list(console, "Coming", [f"{one.day:%A}: {one.name}" for one in today.coming])
    _list(console, "Look at first", [" ".join(look_words(one)) for one in today.look])
    if today.feel_next:
        console.print(f"\nFeel next: {today.feel_next}, of which least is known.", markup=False)
    if today.believed:
        console.print(_believed(as_words(today)))
    console.print(f"Weather: {today.weather}. {_entries(today.entries_count)}", style="dim", markup=False)


def sentences(today: TodayWorked, system: System) -> Iterator[str]:
    """The answer first: each zone, then how many things are due or want a look."""
    if today.state == "before":
        yield f"Planting is {-today.season_day} days away: nothing to water yet."
    elif today.state == "over":
        yield "The season is over: shut down before hard frost, as the tasks say."
    for zone in today.zones:
        yield zone_sentence(zone, system)
    if today.look:
        yield f"Look at {today.look[0].container} first."


def zone_sentence(zone: ZoneToday, system: System) -> str:
    """What to set the timer of a zone to, and what the printed table says where that differs."""
    name = zone_words(zone.zone)
    name = name[0].upper() + name[1:]
    table = _setting(zone.table_starts_count, zone.table_minutes_per_start)
    own = _setting(len(zone.starts), zone.minutes_per_start)
    said = f"{name}: run {own}" if zone.starts else f"{name}: do not run today"
    at = f", at {_and(zone.starts)}" if zone.starts else ""
    beside = "" if table == own else f" The printed table says {table}."
    short = ""
    if zone.short_l > 0.05:
        short = (
            f" {zone.ruling_container} still lacks {show(zone.short_l, Dimension.VOLUME, system)}: bring it by hand."
        )
    return f"{said}{at}.{beside}{short}{''.join(_by_hand(zone.by_hand, system))}"


def _by_hand(ones: Sequence[ByHand], system: System) -> Iterator[str]:
    """What to carry where: the thirstiest first, those out of order by themselves."""
    for out, words in ((False, ""), (True, " until it is put right")):
        told = sorted((one for one in ones if one.out_of_order is out), key=lambda one: -one.water_l)
        if told:
            each = [f"{show(one.water_l, Dimension.VOLUME, system)} to {one.container}" for one in told]
            yield f" By hand{words}: {_and(each)}."


def _setting(starts: int, minutes: int) -> str:
    if not starts or not minutes:
        return "nothing"
    each = "1 minute" if minutes == 1 else f"{minutes} minutes"
    return each if starts == 1 else f"{starts} × {each}"


def due_words(one: DueWorked) -> str:
    """A task and since when it is due."""
    late = "" if not one.late_days else f" (due {one.late_days} day{'s' * (one.late_days > 1)} ago)"
    said, *cautions = one.text.split(" Mind (")
    minds = [caution.split("):")[0] for caution in cautions]
    mind = f" Mind: {', '.join(minds)}; `brimful work` prints the cautions." if minds else ""
    return f"{one.name}{late}. {said}{mind}"


def look_words(one: LookWorked) -> Iterator[str]:
    """Why to look at a container and how to tell what it is."""
    if one.reported:
        yield f"{one.container or 'The whole place'}: somebody wrote “{one.reported}”."
    if one.causes:
        sure = next(word for least, word in SURE if one.chance_share >= least)
        likely = ", ".join(f"{c.cause} {100 * c.chance_share:.0f} %" for c in one.causes if c.chance_share >= 0.01)
        yield f"{one.container}: {sure} something is wrong ({likely})."
        yield f"The quickest test: {one.test}, {one.test_minutes:.0f} minutes."


def _believed(today: TodayWorked) -> Table:
    """The containers that stray most from the plan, with how sure that is."""
    table = titled_table(
        "\nWhat is believed, 90 % sure", ["container"], ["holds, %", "draws, %", "gets, %", "last read"]
    )
    for one in sorted(today.believed, key=_astray, reverse=True)[:SHOWN]:
        spans = (
            (one.store_low_share, one.store_high_share),
            (one.demand_low_factor, one.demand_high_factor),
            (one.supply_low_factor, one.supply_high_factor),
        )
        table.add_row(one.container, *(f"{100 * a:.0f}–{100 * b:.0f}" for a, b in spans), _read(one.unread_days))
    if len(today.believed) > SHOWN:
        table.caption = f"the {SHOWN} that stray most from the plan, of {len(today.believed)}; --json has all"
        table.caption_justify = "left"
    return table


def _astray(one: BelievedWorked) -> float:
    return abs(one.demand_factor - 1.0) + abs(one.supply_factor - 1.0)


def _read(days: int | None) -> str:
    return "never" if days is None else "today" if days == 0 else f"{days} d ago"


def _entries(count: int) -> str:
    return "Nothing in the journal yet: `brimful note` writes down what you see." if not count else f"Entries: {count}."


def _list(console: Console, title: str, lines: list[str]) -> None:
    if lines:
        console.print(f"\n[bold]{title}[/bold]")
    for line in lines:
        console.print(f"  {line}", markup=False)


def _and(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
