"""Checks on what is planted."""

from collections.abc import Iterator

from brimful.design.model import Design
from brimful.findings import Finding, Severity
from brimful.plan.read import Places


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


def tube_reaches(design: Design, places: Places) -> Iterator[Finding]:
    """Every root ball lies within reach of an emitter."""
    for index, row in enumerate(design.rows):
        if row.tube is not None and row.tube.dry:
            names = ", ".join(dict.fromkeys(row.tube.dry))
            said = f'row "{row.name}": no emitter reaches the root balls of {names}'
            mend = "Lay one more loop, take closer emitters, or move those plants."
            yield Finding("dry-root-ball", Severity.WARNING, said, mend, places.at("containers", index))
