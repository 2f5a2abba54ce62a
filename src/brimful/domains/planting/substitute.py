"""What can stand in for a plant that cannot be had: hard stops first, then a score with its parts shown.

Weights and limits are our own (common practice, no source).
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from functools import lru_cache

from brimful.domains.planting.bloom import bloom_months
from brimful.domains.planting.colour import Lab, difference
from brimful.domains.planting.light import Site, hazards, light_fit
from brimful.domains.planting.taxon import WATER_CLASSES, Taxon
from brimful.records import record

WEIGHTS: Mapping[str, float] = {
    "habit": 0.25,
    "height": 0.15,
    "spread": 0.15,
    "colour": 0.20,
    "water": 0.10,
    "bloom": 0.10,
    "upkeep": 0.05,
}
SAME_SIZE, OTHER_SIZE = 0.22, 0.69
"""|ln ratio| up to which sizes count as the same (within 25 %), and from which as quite other (twice)."""
MOST_SPREAD_RATIO = 2.5
"""Beyond, one plant would stand for six, or six for one."""
SAME_COLOUR, NEAR_COLOUR, OTHER_COLOUR = 10.0, 20.0, 40.0
UPKEEP = {"none": 0, "light": 1, "helpful": 1, "hard": 2, "needed": 2}
FEEDS = ("light", "moderate", "heavy")


@record
class Substitute:
    """A plant that can stand in: score 0–1 with its parts, how many instead, what changes if it is taken."""

    taxon: Taxon
    score: float
    parts: Mapping[str, float]
    count: int
    changes: tuple[str, ...]


@record
class Stopped:
    """A plant that cannot stand in, and every reason why."""

    taxon: Taxon
    reasons: tuple[str, ...]


@record
class Ranking:
    """All that can stand in, best first, and all that cannot."""

    substitutes: tuple[Substitute, ...]
    stopped: tuple[Stopped, ...]


@record
class Wanted:
    """The plant to replace: its taxon, how many in a container, and in which colours (all of the taxon's if empty)."""

    taxon: Taxon
    count: int
    colours: tuple[str, ...] = ()


def rank_substitutes(wanted: Wanted, taxa: Iterable[Taxon], site: Site, palette: Mapping[str, Lab]) -> Ranking:
    """What can stand in for a plant, best first, each with the parts of its score (own rule).

    Formula: stopped by layer, size, sun, cold, hazards forbidden here, or water two classes away; the rest scored by
    habit 0.25, height 0.15, spread 0.15, colour 0.20, water 0.10, bloom 0.10, upkeep 0.05; then by kinship.

    Args:
        wanted: plant, count, colours; taxa: to choose from; site: what the place demands;
        palette: colour name → CIELAB, leaf colours under "leaf <name>" where they differ from flowers of that name
    Returns: a Ranking; count N₂ = N₁ (spread₁/spread₂)², odd for uprights
    Valid: count of 1 or more. In a run built alike, swap in every container or in none
    Source: own rule, weights common practice, no source
    """
    if wanted.count < 1:
        raise ValueError(f"a count of {wanted.count} was given: expected 1 or more plants to replace")
    colours = _labs(wanted.taxon, wanted.colours, palette)
    fitting, stopped = [], []
    for taxon in taxa:
        if taxon.key == wanted.taxon.key:
            continue
        reasons = tuple(_stops(wanted.taxon, taxon, site))
        if reasons:
            stopped.append(Stopped(taxon, reasons))
        else:
            fitting.append(_scored(wanted, taxon, colours, palette))
    fitting.sort(key=lambda s: (-round(s.score, 3), _kinship(wanted.taxon, s.taxon), s.taxon.key))
    return Ranking(tuple(fitting), tuple(stopped))


def swapped_count(count: int, spread_m: float, other_spread_m: float, *, odd: bool = False) -> int:
    """How many plants of another width cover the same ground, at least 1.

    Formula: N₂ = N₁ (spread₁ / spread₂)², to the nearest whole or odd number.

    >>> swapped_count(5, 0.45, 0.30), swapped_count(1, 0.60, 0.45, odd=True)
    (11, 1)
    """
    exact = count * (spread_m / other_spread_m) ** 2
    return max(1, 2 * round((exact - 1.0) / 2.0) + 1 if odd else round(exact))


def _stops(wanted: Taxon, taxon: Taxon, site: Site) -> Iterable[str]:
    if taxon.role != wanted.role:
        yield f"{taxon.role}, not {wanted.role}"
    if max(wanted.spread_m(), taxon.spread_m()) > MOST_SPREAD_RATIO * min(wanted.spread_m(), taxon.spread_m()):
        yield f"{100 * taxon.spread_m():.0f} cm wide, not {100 * wanted.spread_m():.0f} cm"
    fit = light_fit(taxon, site.sun_h)
    if fit.off_h != 0.0:
        yield f"{fit.verdict} for it at {site.sun_h:.1f} h of sun, wants {fit.range_words}"
    if site.coldest_c <= taxon.min_temp_damage_c:
        yield f"harmed at {taxon.min_temp_damage_c:g} °C, {site.coldest_c:g} °C expected"
    for hazard in sorted(hazards(taxon) & site.forbidden):
        yield f"{hazard}, forbidden here"
    if _water_steps(wanted, taxon) > (0 if site.one_dripper else 1):
        yield f"{taxon.water_use} water use, not {wanted.water_use}"


def _scored(wanted: Wanted, taxon: Taxon, colours: tuple[Lab, ...], palette: Mapping[str, Lab]) -> Substitute:
    old = wanted.taxon
    parts = {
        "habit": 1.0 if taxon.habit == old.habit else 0.75,
        "height": _size_part(old.height_m(), taxon.height_m()),
        "spread": _size_part(old.spread_m(), taxon.spread_m()),
        "colour": _colour_part(colours, _labs(taxon, (), palette)),
        "water": 1.0 - 0.5 * _water_steps(old, taxon),
        "bloom": _bloom_part(old, taxon),
        "upkeep": max(0.0, 1.0 - 0.5 * max(0, _upkeep(taxon) - _upkeep(old))),
    }
    score = math.fsum(WEIGHTS[name] * part for name, part in parts.items())
    count = swapped_count(wanted.count, old.spread_m(), taxon.spread_m(), odd=old.role == "upright")
    return Substitute(taxon, score, parts, count, tuple(_changes(wanted, taxon, count)))


def _changes(wanted: Wanted, taxon: Taxon, count: int) -> Iterable[str]:
    old = wanted.taxon
    if count != wanted.count:
        yield f"{count} instead of {wanted.count} plants"
    for name, before, after in (
        ("water use", old.water_use, taxon.water_use),
        ("feed", old.feed, taxon.feed),
        ("deadheading", old.deadhead, taxon.deadhead),
        ("trimming", old.trim, taxon.trim),
        ("bloom", _season(old), _season(taxon)),
    ):
        if before != after:
            yield f"{name} {after} instead of {before}"


def _size_part(one: float, other: float) -> float:
    return _falling(abs(math.log(one / other)), SAME_SIZE, OTHER_SIZE)


def _falling(value: float, full: float, none: float) -> float:
    return min(1.0, max(0.0, (none - value) / (none - full)))


def _colour_part(wanted: Sequence[Lab], offered: Sequence[Lab]) -> float:
    """Mean over the colours wanted of how near the best one offered comes: 1 the same, ½ near, 0 quite other."""
    if not wanted or not offered:
        return 0.0
    best = [min(_difference(w, o) for o in offered) for w in wanted]
    near = [0.5 * _falling(d, SAME_COLOUR, NEAR_COLOUR) + 0.5 * _falling(d, NEAR_COLOUR, OTHER_COLOUR) for d in best]
    return math.fsum(near) / len(near)


@lru_cache(maxsize=8192)
def _difference(one: Lab, other: Lab) -> float:
    return difference(one, other)


def _labs(taxon: Taxon, colours: tuple[str, ...], palette: Mapping[str, Lab]) -> tuple[Lab, ...]:
    names = colours or taxon.shown_colours
    leaf = not colours and names == taxon.foliage_colour
    found = (palette.get(f"leaf {name}", palette.get(name)) if leaf else palette.get(name) for name in names)
    return tuple(lab for lab in found if lab is not None)


def _bloom_part(one: Taxon, other: Taxon) -> float:
    """Months in bloom together over months either blooms; 1 for two foliage plants."""
    a, b = (frozenset(bloom_months(t.bloom_start_month, t.bloom_end_month)) for t in (one, other))
    return len(a & b) / len(a | b) if a | b else 1.0


def _water_steps(one: Taxon, other: Taxon) -> int:
    return abs(WATER_CLASSES.index(one.water_use) - WATER_CLASSES.index(other.water_use))


def _upkeep(taxon: Taxon) -> int:
    return UPKEEP[taxon.deadhead] + UPKEEP[taxon.trim]


def _season(taxon: Taxon) -> str:
    if taxon.bloom_start_month is None:
        return "none"
    first, last = (f"{date(2000, month or 1, 1):%B}" for month in (taxon.bloom_start_month, taxon.bloom_end_month))
    return f"{first} to {last}" if first != last else first


def _kinship(one: Taxon, other: Taxon) -> int:
    """0 same species, 1 same genus, 2 other."""
    if one.botanical_name.split()[:2] == other.botanical_name.split()[:2]:
        return 0
    return 1 if one.genus == other.genus else 2
