"""Whether a plant gets the sun it wants where it stands, and what in a container or zone calls for care."""

from collections.abc import Sequence

from brimful.domains.planting.taxon import WATER_CLASSES, Taxon
from brimful.records import record

LIGHT_CLASSES = (("full-sun", 6.0), ("part-sun", 4.0), ("part-shade", 2.0), ("shade", 0.0))
"""Hours of direct sun from which a class begins: full sun from 6, part sun from 4 (arboretum page, read); the split of
shade below: common practice, no source."""
ALL_DAY_H = 12.0
"""A range that ends here has no end: the plant bears all the sun there is, on the longest day too (our own rule)."""


@record
class LightFit:
    """Hours of sun a plant gets and the range it wants; `off_h` is below 0 where it lacks, above where too much."""

    sun_h: float
    least_h: float
    most_h: float
    off_h: float

    @property
    def verdict(self) -> str:
        """ "fits", "too dark" or "too bright"."""
        if self.off_h == 0.0:
            return "fits"
        return "too dark" if self.off_h < 0.0 else "too bright"

    @property
    def range_words(self) -> str:
        """The range it wants, as "6 h or more" or "2 to 5 h"."""
        return f"{self.least_h:g} h or more" if self.most_h >= 24.0 else f"{self.least_h:g} to {self.most_h:g} h"


@record
class Site:
    """What a place demands of plants.

    `sun_h`: direct sun on a clear day [h]; `coldest_c`: lowest temperature still expected while they stand [°C];
    `forbidden`: what must not be there, of "toxic", "irritant", "invasive"; `one_dripper`: all get the same water.
    """

    sun_h: float
    coldest_c: float
    forbidden: frozenset[str] = frozenset()
    one_dripper: bool = False


@record
class Caution:
    """Something to mind: a code, the taxa concerned, and why."""

    code: str
    keys: tuple[str, ...]
    message: str


def light_class(sun_h: float) -> str:
    """The word for so many hours of direct sun: full-sun, part-sun, part-shade or shade.

    >>> light_class(6), light_class(4.5), light_class(0)
    ('full-sun', 'part-sun', 'shade')
    """
    if not 0.0 <= sun_h <= 24.0:
        raise ValueError(f"{sun_h} h of sun were given: expected 0 to 24")
    return next(name for name, least in LIGHT_CLASSES if sun_h >= least)


def light_fit(taxon: Taxon, sun_h: float) -> LightFit:
    """Whether a taxon's hours of direct sun suit it, and by how many hours they miss [h].

    Args:
        taxon: the plant; sun_h: direct sun where it stands on a clear day of the season [h]
    Returns: a LightFit
    Valid: 0–24 h. More sun than wanted burns first in hot wind; a bound is no cliff
    Source: ranges of the plant table, common practice, no source
    """
    light_class(sun_h)
    least, most = taxon.direct_sun_hours_min, taxon.direct_sun_hours_max
    most = 24.0 if most >= ALL_DAY_H else most
    off = sun_h - least if sun_h < least else max(0.0, sun_h - most)
    return LightFit(sun_h, least, most, off)


def cautions(taxa: Sequence[Taxon], site: Site) -> tuple[Caution, ...]:
    """What calls for care in plants that share a container or a zone: thirst, sun, cold, poison, skin, spread.

    Args:
        taxa: each once; site: what the place demands
    Returns: Cautions, worst first within each kind; empty where nothing calls for care
    Valid: "unknown" poison is told as unknown; this is no veterinary advice
    Source: plant table
    """
    found: list[Caution] = []
    thirst = {t.water_use for t in taxa}
    if {"low", "high"} <= thirst or (site.one_dripper and len(thirst) > 1):
        classes = [w for w in WATER_CLASSES if w in thirst]
        message = f"plants of {' and '.join(classes)} water use share one watering; expected one class, or neighbours"
        found.append(Caution("mixed-water", tuple(t.key for t in taxa), message))
    for taxon in taxa:
        found += _light_caution(taxon, site) + _cold_caution(taxon, site) + _hazards(taxon)
    return tuple(found)


def hazards(taxon: Taxon) -> frozenset[str]:
    """What is harmful about a taxon, of "toxic", "irritant", "invasive"; the unknown is not among them."""
    named = {
        "toxic": taxon.toxic_to_pets == "yes",
        "irritant": taxon.skin_irritant == "yes",
        "invasive": taxon.invasive_caution.startswith("yes"),
    }
    return frozenset(name for name, present in named.items() if present)


def _light_caution(taxon: Taxon, site: Site) -> list[Caution]:
    fit = light_fit(taxon, site.sun_h)
    if fit.off_h == 0.0:
        return []
    said = f"{taxon.key} gets {fit.sun_h:.1f} h of sun, {fit.verdict}; expected {fit.range_words}"
    return [Caution("light", (taxon.key,), said)]


def _cold_caution(taxon: Taxon, site: Site) -> list[Caution]:
    if site.coldest_c > taxon.min_temp_damage_c:
        return []
    bears = f"{taxon.key} is harmed at {taxon.min_temp_damage_c:g} °C and below"
    return [Caution("cold", (taxon.key,), f"{bears}; {site.coldest_c:g} °C is expected while it stands")]


def _hazards(taxon: Taxon) -> list[Caution]:
    found = []
    if taxon.toxic_to_pets != "no":
        sure = "is poisonous to pets" if taxon.toxic_to_pets == "yes" else "may be poisonous to pets: not known"
        found.append(Caution("toxic", (taxon.key,), f"{taxon.key} {sure}"))
    if taxon.skin_irritant == "yes":
        found.append(
            Caution("irritant", (taxon.key,), f"{taxon.key} can irritate the skin: wear gloves and long sleeves")
        )
    if taxon.invasive_caution != "none":
        found.append(
            Caution("invasive", (taxon.key,), f"{taxon.key} can spread: {taxon.invasive_caution.split(': ')[-1]}")
        )
    return found
