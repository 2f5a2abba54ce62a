"""Checks on a season: weeks that cannot be met, draining, starts that find no room."""

from collections.abc import Iterator

from brimful.checks.water import zone_place
from brimful.design.season.model import SeasonWorked
from brimful.findings import Finding, Severity
from brimful.plan.names import zone_words
from brimful.plan.read import Places
from brimful.quantities import Dimension, System, show

RISKY = 0.1
"""Nine springs of ten keep to the date: the usual care for tender plants (common practice, no source)."""
DRAINS = 0.35
"""More than this share drained washes feed away (BMP band 10 to 20 %, from memory; twice that is worth a word)."""
NO_SKY = 0.05
"""A light well shows more; below it nothing in the plant tables grows (common practice, no source)."""
MENDS = {
    "permitted time": "Permit longer hours under [timer], or take emitters that give more.",
    "permitted hours": "Permit hours further apart under [timer], or take containers or a mix that hold more.",
    "permitted days": "Permit more days of the week under [timer].",
    "longest start of the timer": "Take a timer that runs longer at a stretch (longest under [timer]), or more starts.",
    "starts per day": "Take a timer with more starts a day (most_starts under [timer]).",
    "minute step of the timer": "Take a timer with a finer step, or smaller emitters.",
    "most that may drain": "Match the emitters of the zone's rows: what one needs drains from another.",
    "room in the mix": "Take deeper containers or a mix that holds more, or accept a lower reliability.",
}


def season_findings(season: SeasonWorked, places: Places) -> Iterator[Finding]:
    """Everything to mind about a season."""
    yield from _unmet(season, places)
    yield from _draining(season, places)
    yield from _unplaced(season, places)
    yield from _dark(season, places)
    yield from _frost(season, places)
    yield from _first_weeks(season, places)


def _unmet(season: SeasonWorked, places: Places) -> Iterator[Finding]:
    """Weeks in which no setting keeps the wanted reliability: which limit binds, and by how much."""
    system = System.METRIC if season.units == "metric" else System.US
    for index, zone in enumerate(season.zones):
        unmet = [week for week in zone.weeks if not week.met]
        if unmet:
            worst = max(unmet, key=lambda week: week.lacking_l)
            lacks = show(worst.lacking_l, Dimension.VOLUME, system)
            said = (
                f"{zone_words(zone.zone)}: in {len(unmet)} of {len(zone.weeks)} weeks no setting keeps every "
                f"container; the worst begins {worst.from_day} and leaves one {lacks} short; what binds: {worst.set_by}"
            )
            mend = MENDS.get(worst.set_by, "Give the timer more hours and days, or the containers more emitters.")
            yield Finding("weeks-unmet", Severity.WARNING, said, mend, zone_place(places, index))


def _draining(season: SeasonWorked, places: Places) -> Iterator[Finding]:
    for index, zone in enumerate(season.zones):
        share = zone.ways[0].drained_share
        if share > DRAINS:
            said = f"{zone_words(zone.zone)}: {100 * share:.0f} % of the water drains over the season, and feed with it"
            mend = "Match the emitters of its rows, or put them on zones of their own."
            yield Finding("much-drains", Severity.WARNING, said, mend, zone_place(places, index))


def _unplaced(season: SeasonWorked, places: Places) -> Iterator[Finding]:
    if season.unplaced:
        said = f"in the thirstiest week the starts of {', '.join(season.unplaced)} find no room in the permitted hours"
        mend = "Permit more hours under [timer], or make the zones smaller so that two can run at once."
        yield Finding("no-room-in-the-day", Severity.WARNING, said, mend, places.at("timer"))


def _dark(season: SeasonWorked, places: Places) -> Iterator[Finding]:
    """A row that sees next to no sky stands inside something, or beside it by a slip of the pen."""
    for sun in season.sun:
        if sun.sky_view_share < NO_SKY:
            said = f'row "{sun.row}" sees {100 * sun.sky_view_share:.0f} % of the sky'
            mend = "See whether it stands inside what shades it: start and heading of the row, corners of the shade."
            yield Finding("no-sky", Severity.WARNING, said, mend, places.at("shade"))


def _frost(season: SeasonWorked, places: Places) -> Iterator[Finding]:
    for frost in season.frosts:
        if frost.threshold_c == 0.0 and (frost.after_planting_share or 0.0) > RISKY:
            share = 100 * (frost.after_planting_share or 0.0)
            said = f"in {share:.0f} of 100 years ({frost.source}) frost came after planting day, {season.first_day}"
            mend = f"Plant tender plants from {frost.last_safe} on, or keep a cover at hand."
            yield Finding("frost-after-planting", Severity.WARNING, said, mend, places.at("site", "planting_day"))
    few = [frost for frost in season.frosts if 0 < frost.years_count < 10]
    if few:
        years = f"{few[0].years_count} year{'s' if few[0].years_count > 1 else ''}"
        said = f"frost dates rest on {years}; twenty or more make them worth their name"
        yield Finding(
            "few-frost-years", Severity.NOTE, said, "Ask the weather service for its dates.", places.at("site")
        )


def _first_weeks(season: SeasonWorked, places: Places) -> Iterator[Finding]:
    """The table counts the whole mix; new plants live in their root balls."""
    if any(not week.minutes_per_start for zone in season.zones for week in zone.weeks[:2]):
        said = "in the first two weeks roots have only their balls, which dry out before the mix does"
        mend = "Water new plants in by hand, and again when a ball feels dry, whatever the table says."
        yield Finding("water-in-by-hand", Severity.NOTE, said, mend, places.at("site", "planting_day"))
