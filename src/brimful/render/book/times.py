"""How long to run: the page to pin on the shed wall."""

from collections.abc import Iterator

from brimful.design.season.model import SeasonWorked, ZoneSeason
from brimful.quantities import Dimension, show, show_number, unit_of
from brimful.render.book.blocks import Block, Column, Desk, chapter, picture, say, table, text
from brimful.render.book.words import occasion_words, percent
from brimful.render.charts.hot_week import hot_week
from brimful.render.charts.season_water import season_water
from brimful.render.charts.vega import printed
from brimful.render.words import MONTHS


def times(desk: Desk) -> Iterator[Block]:
    """Week by week where the season is worked out, else by occasion."""
    season = desk.scene.season
    if season is None or not season.zones:
        yield chapter("Run times", list(_occasions(desk)))
        return
    for zone in season.zones:
        yield chapter(f"Week by week: {zone.zone}", list(_weeks(desk, season, zone)))
    hot = list(_hot(desk, season))
    if hot:
        yield chapter("The hottest week", hot, joins="whole")


def _weeks(desk: Desk, season: SeasonWorked, zone: ZoneSeason) -> Iterator[Block]:
    worst = max(zone.weeks, key=lambda week: week.zone_l)
    yield say(
        f"Set the timer each week. The most is {worst.starts_per_day_count} × {worst.minutes_per_start} min a day "
        f"in the week of {worst.from_day}."
    )
    unit = unit_of(Dimension.VOLUME, desk.system)
    rows = [
        (
            week.from_day.replace(" ", "\u00a0"),
            week.starts_per_day_count,
            week.minutes_per_start,
            show_number(week.zone_l, Dimension.VOLUME, desk.system),
            percent(week.stress_chance_share),
            percent(week.drained_share),
            "",
        )
        for week in zone.weeks
    ]
    columns = [
        Column("week of"),
        *(
            Column(words, right=True, share=1.3)
            for words in ("starts a day", "minutes each", f"zone, {unit} a week", "chance of stress", "drains")
        ),
        Column("set on", share=1.4),
    ]
    yield table(columns, rows)
    if not all(week.minutes_per_start for week in zone.weeks):
        yield text("No start: the mix, soaked on planting day, and rain carry the plants that week.")
    begins = [f"{start.begins} to {start.ends}" for start in season.timetable if start.zone == zone.zone]
    if begins:
        yield text(f"In the thirstiest week the timer runs from {'; '.join(begins)}.")
    if not desk.style.large:
        yield _drawn(desk, season, zone)


def _drawn(desk: Desk, season: SeasonWorked, zone: ZoneSeason) -> Block:
    return picture(printed(season_water(season, zone, desk.system), desk.style.width, desk.style.size))


def _hot(desk: Desk, season: SeasonWorked) -> Iterator[Block]:
    """How near each zone comes to running short, and how long a fault may go unseen."""
    for zone in season.zones if desk.style.large else ():
        yield _drawn(desk, season, zone)
    for zone in season.zones:
        if zone.hot_week is not None:
            yield picture(printed(hot_week(season, zone.hot_week, desk.system), desk.style.width, desk.style.size))
    every = [one for zone in season.zones for one in zone.survival]
    if not every:
        return
    months = list(dict.fromkeys(one.month for one in every))
    days = {(one.row, one.month): one.lasts_days for one in every}
    rows = [(row, *(days.get((row, month), "") for month in months)) for row in dict.fromkeys(one.row for one in every)]
    columns = [Column("row", share=3), *(Column(MONTHS[month - 1], right=True, share=1) for month in months)]
    yield table(columns, rows, title="Days a full container lasts without water")


def _occasions(desk: Desk) -> Iterator[Block]:
    unit = unit_of(Dimension.VOLUME, desk.system)
    columns = [
        Column("when", share=2),
        *(Column(words, right=True, share=1.2) for words in ("starts a day", "minutes each", f"zone, {unit} a day")),
        Column("ruled by", share=3),
    ]
    for _, zone in desk.scene.zones:
        rows = [
            (
                occasion_words(t.occasion),
                t.starts_per_day_count,
                t.minutes_per_start,
                show_number(t.zone_l_day, Dimension.VOLUME, desk.system),
                f"{t.container}; starts by {t.set_by}",
            )
            for t in zone.run_times
        ]
        yield table(columns, rows, title=zone.name)
    drawn = ", ".join(
        f"{occasion_words(o.occasion)} {show(o.et0_mm_day, Dimension.DEPTH, desk.system)}"
        for o in desk.scene.design.site.occasions
    )
    yield text(f"Reference evapotranspiration a day: {drawn}.")
