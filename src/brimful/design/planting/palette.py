"""Colours of a planting as numbers beside the swatches; never a verdict."""

from collections.abc import Mapping, Sequence
from itertools import combinations

from brimful.catalog import Catalog
from brimful.design.planting.model import PairWorked, SwatchWorked
from brimful.domains.planting.colour import Lab, difference, lab_of_hex
from brimful.domains.planting.colour_vision import seen_apart
from brimful.domains.planting.harmony import harmony, warm_cool
from brimful.domains.planting.taxon import Taxon
from brimful.records import record


@record
class Palette:
    """Screen colours of flower and of leaf words."""

    flowers: Mapping[str, str]
    leaves: Mapping[str, str]

    @property
    def labs(self) -> dict[str, Lab]:
        """Colour word to CIELAB, leaf colours under "leaf <word>"."""
        leaves = {f"leaf {word}": lab_of_hex(srgb) for word, srgb in self.leaves.items()}
        return leaves | {word: lab_of_hex(srgb) for word, srgb in {**self.leaves, **self.flowers}.items()}


def palette_of(catalog: Catalog) -> Palette:
    """The colour words of the catalogue."""
    flowers, leaves = (
        {row.name: row.srgb for row in catalog.colours.values() if row.use == use} for use in ("flower", "leaf")
    )
    return Palette(flowers, leaves)


def swatches_of(taxa: Sequence[Taxon], palette: Palette) -> tuple[SwatchWorked, ...]:
    """What a planting is seen for: each colour once, with the taxa that bear it; words without a colour left out."""
    bearers: dict[tuple[str, str], list[str]] = {}
    for taxon in taxa:
        for word in taxon.shown_colours:
            blooms = taxon.flowers and word in taxon.flower_colours
            srgb = (palette.flowers if blooms else palette.leaves).get(word)
            if srgb is not None:
                bearers.setdefault((word if blooms else f"{word} leaves", srgb), []).append(taxon.key)
    return tuple(
        SwatchWorked(word, srgb, tuple(keys), warm_cool(lab_of_hex(srgb))) for (word, srgb), keys in bearers.items()
    )


def pairs_of(swatches: Sequence[SwatchWorked]) -> tuple[PairWorked, ...]:
    """Every two colours: how far apart, how harmonious, how far apart for every colour vision."""
    found = []
    for one, other in combinations(swatches, 2):
        a, b, seen = lab_of_hex(one.srgb), lab_of_hex(other.srgb), seen_apart(one.srgb, other.srgb)
        pair = PairWorked(
            one.colour, other.colour, difference(a, b), harmony(a, b), seen.least, abs(seen.lightness_step)
        )
        found.append(pair)
    return tuple(found)
