"""How to feed: what to weigh, what goes in the tank and when, coated feed, and the nitrogen of the season."""

from rich.console import Console
from rich.table import Table

from brimful.design.care.model import Care, FeedWorked, NitrogenWorked, SolubleWorked, TankWorked
from brimful.quantities import Dimension, System, show
from brimful.render.summary import titled_table
from brimful.render.words import MONTHS, zone_words

EVERY = 4


def answer(care: Care, system: System) -> str:
    """The sentences a person would say about feeding."""
    feed = care.feed
    if feed is None:
        return "The plan wants no feed."
    said = []
    if feed.soluble is not None and feed.tanks:
        first = feed.tanks[0]
        zones = {tank.zone: tank for tank in reversed(feed.tanks)}
        each = "; ".join(_tank_words(zones[name], system) for name in dict.fromkeys(tank.zone for tank in feed.tanks))
        said.append(
            f"From {first.day.day} {MONTHS[first.day.month - 1]} give {feed.soluble.nitrogen_ppm:g} ppm N of "
            f"{feed.soluble.feed}: {each}."
        )
    if feed.coated:
        doses = ", ".join(f"{show(one.dose_g / 1000, Dimension.MASS, system)} in {one.row}" for one in feed.coated)
        kinds = " or ".join(dict.fromkeys(one.feed for one in feed.coated))
        said.append(f"Work {kinds} into each container: {doses}.")
    said += [f"Nitrogen in {one.row}, over the season: {one.verdict}." for one in feed.nitrogen]
    return " ".join(said)


def _tank_words(tank: TankWorked, system: System) -> str:
    """What a zone's first feeding takes."""
    weigh = show(tank.feed_g / 1000, Dimension.MASS, system)
    stock, solution = (show(litres, Dimension.VOLUME, system) for litres in (tank.stock_l, tank.solution_l))
    return f"{zone_words(tank.zone)} {weigh} in {stock} of stock, for {solution} of solution"


def body(care: Care, system: System, console: Console) -> None:
    """The feed arithmetic, the tank, the coated feed, the weeks."""
    feed = care.feed
    if feed is None:
        return
    if feed.soluble is not None:
        _soluble(feed.soluble, system, console)
    if feed.tanks:
        console.print(_tanks(feed, system))
    if feed.coated:
        console.print(_coated(feed, system))
    for one in feed.nitrogen:
        console.print(_nitrogen(one))
    console.print(f"[dim]Water drained and used: {feed.water_taken_from}. Nitrogen wanted: from memory.[/dim]")


def _soluble(one: SolubleWorked, system: System, console: Console) -> None:
    """Strengths in the reader's units: ounces and teaspoons by the gallon are for those who have them."""
    console.print(f"\n{one.feed}, {one.nitrogen_ppm:g} ppm N at the container", style="bold")
    weak, strong = f"{one.strength_g_l:.2f} g/L", f"{one.stock_g_l:.0f} g/L"
    if system is System.US:
        weak += (
            f", {one.strength_oz_100gal:.1f} oz in 100 gal (ounces of weight); about {one.spoons_tsp_gal:.1f} level "
            f"teaspoons a gallon ({one.spoons_low_tsp_gal:.1f} to {one.spoons_high_tsp_gal:.1f}; approximate, weigh "
            "where you can)"
        )
        strong += f", {one.stock_oz_gal:.1f} oz/gal"
    means = one.ratio_means.replace("R parts", f"{one.ratio:g} parts")
    console.print(f"  straight in the tank: {weak}")
    console.print(f"  stock for an injector of 1:{one.ratio:g} ({means}): {strong}")
    if one.solution_ec_ms_cm is not None:
        console.print(f"  a meter at an emitter reads about {one.solution_ec_ms_cm:.2f} mS/cm")


def _tanks(feed: FeedWorked, system: System) -> Table:
    table = titled_table("\nThis goes in the tank", ["day", "zone"], ["containers", "solution", "stock", "feed"])
    for tank in feed.tanks:
        solution, stock = (show(v, Dimension.VOLUME, system) for v in (tank.solution_l, tank.stock_l))
        day = f"{tank.day.day} {MONTHS[tank.day.month - 1]}"
        weigh = show(tank.feed_g / 1000, Dimension.MASS, system)
        table.add_row(day, tank.zone, str(tank.containers_count), solution, stock, weigh)
    return table


def _coated(feed: FeedWorked, system: System) -> Table:
    table = titled_table("\nCoated feed in the top layer", ["row", "feed"], ["each", "held down by"])
    table.add_column("most of it out by")
    for one in feed.coated:
        rule = "surface" if one.by_surface_g < one.by_volume_g else "volume"
        day = one.refeed_day
        out = f"{day.day} {MONTHS[day.month - 1]}" if day is not None else "after the season"
        table.add_row(one.row, one.feed, show(one.dose_g / 1000, Dimension.MASS, system), rule, out)
    return table


def _nitrogen(one: NitrogenWorked) -> Table:
    """Every fourth week; the whole stands in the exported files."""
    head = ["let out", "fed", "wanted", "taken up", "drained", "left, ppm"]
    table = titled_table(f"\nNitrogen in one container of {one.row}, g a week", ["week of"], head)
    for week in one.weeks[::EVERY]:
        grams = (week.released_g, week.fed_g, week.demand_g, week.taken_up_g, week.drained_g)
        day = f"{week.monday.day} {MONTHS[week.monday.month - 1]}"
        table.add_row(day, *(f"{gram:.2f}" for gram in grams), f"{week.solution_ppm:.0f}")
    return table
