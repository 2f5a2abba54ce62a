"""Checks on what is planted, from the design alone."""

from collections.abc import Iterator

from brimful.checks.water import zone_place
from brimful.design.model import Design, RowWorked
from brimful.findings import Finding, Severity
from brimful.plan.names import zone_words
from brimful.plan.read import Places

MADE_UP_FOR = 1.1
"""Up to so much over what it should get, a row's emitters make up for its plants (our own rule)."""


def mixed_thirst(design: Design, places: Places) -> Iterator[Finding]:
    """Thirsty and dry plants in one container get the same water; one of them will mind."""
    for index, row in enumerate(design.rows):
        thirsty = [taxon.name for taxon in row.plants if taxon.water_use == "high"]
        dry = [taxon.name for taxon in row.plants if taxon.water_use == "low"]
        if thirsty and dry:
            said = f'row "{row.name}" mixes thirsty plants ({", ".join(thirsty)}) with dry ones ({", ".join(dry)})'
            yield Finding(
                "mixed-thirst",
                Severity.WARNING,
                said,
                "Choose plants of one class of water use.",
                places.at("containers", index),
            )


def mixed_zone(design: Design, places: Places) -> Iterator[Finding]:
    """Rows of dry plants and rows of thirsty ones run as long as each other, unless their emitters make up for it."""
    for index, zone in enumerate(design.zones):
        rows = [row for row in design.rows if row.zone == zone.name]
        thirsty = [row.name for row in rows if _uses(row) == {"high"}]
        dry = [row.name for row in rows if _uses(row) == {"low"}]
        unmatched = {one.row for time in zone.run_times for one in time.rows if one.share > MADE_UP_FOR}
        if thirsty and dry and unmatched & {*thirsty, *dry}:
            wet, arid = ", ".join(thirsty), ", ".join(dry)
            said = f"{zone_words(zone.name)} runs as long for dry plants ({arid}) as for thirsty ones ({wet})"
            mend = "Give the dry rows a zone of their own, or emitters to match."
            yield Finding("mixed-zone", Severity.WARNING, said, mend, zone_place(places, index))


def tube_reaches(design: Design, places: Places) -> Iterator[Finding]:
    """Every root ball lies within reach of an emitter."""
    for index, row in enumerate(design.rows):
        if row.tube is not None and row.tube.dry:
            names = ", ".join(dict.fromkeys(row.tube.dry))
            said = f'row "{row.name}": no emitter reaches the root balls of {names}'
            mend = "Lay one more loop, take closer emitters, or move those plants."
            yield Finding("dry-root-ball", Severity.WARNING, said, mend, places.at("containers", index))


def _uses(row: RowWorked) -> set[str]:
    """Whether a row has thirsty plants, dry ones, or both; those between do with either."""
    return {taxon.water_use for taxon in row.plants} & {"high", "low"}
