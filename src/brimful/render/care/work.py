"""How to build it and keep it: handling, set-out, schedule and cards, the season's tasks."""

from datetime import date

from rich.console import Console
from rich.table import Table

from brimful.design.care.model import BuildWorked, CardWorked, Care, HandlingWorked, SeasonTasks, SetOutWorked
from brimful.quantities import Dimension, System, show
from brimful.render.summary import titled_table
from brimful.render.words import MONTHS

BARS = "▁▂▃▄▅▆▇█"


def answer(care: Care, _system: System) -> str:
    """The sentences a person would say about the work."""
    said = []
    build = care.build
    if build is not None:
        hands = "1 person builds" if build.people_count == 1 else f"{build.people_count} people build"
        days = f"{build.finish_days_count} day{'s' if build.finish_days_count > 1 else ''}"
        said.append(f"{hands} this in {days} of {build.day_hours:.3g} hours")
        if build.held_up_by != "people":
            said.append(f"{build.held_up_by} holds it up")
        said.append(f"one more pair of hands saves {build.saved_by_one_more_hours:.1f} hours")
    sentence = "; ".join(said) + "." if said else ""
    if care.season is not None:
        most = max(care.season.weeks, key=lambda week: week.hours)
        sentence += (
            f" The season then takes {care.season.total_hours:.0f} hours, most in the week of "
            f"{_day(most.monday)}: {most.hours:.1f}."
        )
    return sentence.strip()


def body(care: Care, system: System, console: Console) -> None:
    """Handling, set-out, cards with cautions, schedule, season."""
    console.print(_handling(care.handling, system))
    for bag in care.bags:
        mass = show(bag.bag_kg, Dimension.MASS, system)
        console.print(
            f"A bag of {bag.mix} weighs about {mass}; lifting index {bag.index_from_ground:.1f} from the ground, "
            f"{bag.index_from_bench:.1f} from a bench or tailgate. {bag.words}"
        )
    if care.handling:
        console.print(f"[dim]Load under each container is stated, not judged. {care.handling[0].load_words}[/dim]")
    for out in care.set_out:
        console.print(_set_out(out, system))
        _way_in(out, system, console)
    if care.build is not None:
        said: set[str] = set()
        for card in care.build.cards:
            _card(card, said, console)
        console.print(_schedule(care.build))
    if care.season is not None:
        console.print(_season(care.season))


def _handling(rows: tuple[HandlingWorked, ...], system: System) -> Table:
    table = titled_table("\nOne container in the hand", ["", *(row.row for row in rows)])

    def line(words: str, dimension: Dimension, values: list[float]) -> None:
        table.add_row(words, *(show(v, dimension, system) for v in values))

    line("empty", Dimension.MASS, [row.empty_kg for row in rows])
    line("drained", Dimension.MASS, [row.drained_kg for row in rows])
    line("saturated", Dimension.MASS, [row.saturated_kg for row in rows])
    table.add_row("lifting index, one person", *(_index(row) for row in rows))
    table.add_row("move it empty by", *(", ".join(row.ways_empty[:3]) or "no aid carries it" for row in rows))
    table.add_row("set empty, fill in place", *("yes" if row.fill_in_place else "as you like" for row in rows))
    line("tips, mix dry, from", Dimension.SPEED, [row.tipping_gust_m_s for row in rows])
    line("slides, wet paving, from", Dimension.SPEED, [row.sliding_gust_m_s for row in rows])
    table.add_row("load on what is under it", *(_load(row, system) for row in rows))
    return table


def _index(row: HandlingWorked) -> str:
    return "out of one person's reach" if row.lift_index is None else f"{row.lift_index:.1f}"


def _load(row: HandlingWorked, system: System) -> str:
    if system is System.US:
        return f"{row.load_kpa / 0.04788025898:.0f} lb/sq ft"
    return f"{row.load_kg_m2:.0f} kg/m²"


def _set_out(out: SetOutWorked, system: System) -> Table:
    def length(value: float) -> str:
        return f"{value:z.3f}" if system is System.METRIC else tape(value, system)

    even = f"every {length(out.pitch_m)}" if out.even else f"moved by up to {length(out.largest_move_m)}"
    title = f"\nSet out {out.row}: marks {length(out.marks_m)} apart, {even}, middles {length(out.out_m)} out"
    title += "; all in m" if system is System.METRIC else ""
    levels = ["ground", "pad top", "cut", "fill", "or bricks", "shims"] if out.pads else ["ground"]
    table = titled_table(title, ["container"], ["middle", "from", "to", "diagonal", *levels])
    for one in out.stations:
        places = (one.middle_m, one.near_edge_m, one.far_edge_m, one.diagonal_m)
        heights = (one.ground_m, one.top_m, one.cut_m, one.fill_m) if out.pads else (one.ground_m,)
        packs = (str(one.bricks_count), str(one.shims_count)) if out.pads else ()
        table.add_row(one.container, *(length(v) for v in (*places, *heights)), *packs)
    return table


def tape(length_m: float, system: System) -> str:
    """A length as a tape reads it: feet and inches to the quarter, or metres to the millimetre.

    >>> tape(2.8194, System.US), tape(2.8194, System.METRIC), tape(-0.01, System.METRIC)
    ('9 ft 3 in', '2.819 m', '-0.010 m')
    """
    if system is System.METRIC:
        return f"{length_m:z.3f} m"
    quarters = round(abs(length_m) / 0.0254 * 4)
    feet, rest = divmod(quarters, 48)
    inches = show(rest / 4 * 0.0254, Dimension.LENGTH, system, small=True) if rest or not feet else ""
    sign = "-" if length_m < 0 and quarters else ""
    return sign + " ".join(filter(None, (f"{feet} ft" if feet else "", inches)))


def _way_in(out: SetOutWorked, system: System, console: Console) -> None:
    way = out.way_in
    if way is None:
        return
    tube, height, hole, needed = (
        show(v, Dimension.LENGTH, system, small=True)
        for v in (way.outer_diameter_m, way.height_m, way.hole_m, way.tube_needed_m)
    )
    clear = "nothing is crushed" if way.clear else "the tube is crushed"
    console.print(f"Way in: tube {tube} outside, {way.under} {height}, hole {hole}: {clear}. Allow {needed} of tube.")
    if out.even_counts:
        counts = ", ".join(str(count) for count in out.even_counts)
        console.print(f"Even and clear of the obstacles: {counts} containers.")


def _card(card: CardWorked, said: set[str], console: Console) -> None:
    """The steps with their reasons, and the cautions at the step where they apply: whole where first met, by name
    after that. `said` holds the texts that stand above."""
    times = f" × {len(card.containers)}" if len(card.containers) > 1 else ""
    console.print(f"\nCard: {card.place}{times}, {card.each_hours:.1f} hours of hands each", style="bold")
    for number, step in enumerate(card.steps, start=1):
        hands = f", {step.people_count} people" if step.people_count > 1 else ""
        tools = f", {', '.join(step.equipment)}" if step.equipment else ""
        takes = f"{step.minutes_each:.0f} min{hands}{tools}"
        console.print(f"  ☐ {number}. {step.name} ({takes}). [dim]{step.reason}[/dim]")
        again = [caution.topic for caution in step.cautions if caution.text in said]
        if again:
            console.print(f"       Mind, as said above: {'; '.join(dict.fromkeys(again))}.")
        for caution in step.cautions:
            if caution.text not in said:
                said.add(caution.text)
                console.print(f"       Mind ({caution.topic}): {caution.text} [dim]Decides: {caution.decides}.[/dim]")


def _schedule(build: BuildWorked) -> Table:
    title = f"\nWho does what ({build.done_count} steps done; best possible {build.best_possible_hours:.1f} hours)"
    table = titled_table(title, ["day", "from", "to", "who", "where", "what"])
    for slot in build.slots:
        if slot.end_min > slot.start_min:
            who = " ".join(str(person) for person in slot.people)
            begin, end = _clock(slot.start_min), _clock(slot.end_min)
            table.add_row(str(slot.day_count), begin, end, who, slot.place, slot.name)
    return table


def _season(season: SeasonTasks) -> Table:
    title = f"\nThe season, {_day(season.planted)} to {_day(season.frost)}"
    table = titled_table(title, ["week of", "", "what"], ["hours"])
    most = max((week.hours for week in season.weeks), default=1.0) or 1.0
    for week in season.weeks:
        tasks = [task for task in season.tasks if 0 <= (task.day - week.monday).days < 7]
        names = "; ".join(f"{_day(task.day)} {task.name}" for task in tasks)
        bar = BARS[max(0, min(7, round(8 * week.hours / most) - 1))]
        table.add_row(_day(week.monday), bar, names, f"{week.hours:.1f}")
    return table


def _day(day: date) -> str:
    return f"{day.day} {MONTHS[day.month - 1]}"


def _clock(minutes: float) -> str:
    """Minutes of the working day as hours and minutes from its start."""
    return f"{int(minutes + 0.5) // 60}:{int(minutes + 0.5) % 60:02d}"
