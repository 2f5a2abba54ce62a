"""What of a planting can harm: poison, sap, spread; and the cold that ends it."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from brimful.design.planting.desk import PlantingDesk
from brimful.design.planting.model import WindowWorked
from brimful.design.planting.words import in_units
from brimful.design.settle import PlantSpec, RowSpec, Settled
from brimful.design.settle.planting import taxon_of
from brimful.domains.planting.light import hazards
from brimful.domains.planting.taxon import Taxon
from brimful.plan.schema import Site

HARMFUL = {
    "toxic": ("poisonous-plant", "is poisonous to pets", "Keep children and animals from it, or take another plant"),
    "irritant": ("irritant-plant", "can irritate the skin", "Place it out of reach, or take another plant"),
    "invasive": ("spreading-plant", "can spread into wild land", "Take another plant"),
}
"""By hazard: the finding's code, what is said, what to do."""
SOON_DAYS = 7
"""An end so near the season's own is not worth a word (our own rule)."""


def forbidden_at(site: Site) -> frozenset[str]:
    """What must not stand at a site for those who come there, in the words of the cautions."""
    named = {"toxic": site.children or site.animals, "irritant": site.children, "invasive": site.wild_land}
    return frozenset(word for word, present in named.items() if present)


def taxa_of(settled: Settled) -> Iterator[tuple[PlantSpec, list[RowSpec]]]:
    """Each taxon once, with the rows that have it."""
    rows: dict[str, list[RowSpec]] = {}
    specs: dict[str, PlantSpec] = {}
    for row in settled.rows:
        for spec in row.plants:
            specs.setdefault(spec.plant.key, spec)
            rows.setdefault(spec.plant.key, []).append(row)
    for key, spec in specs.items():
        yield spec, rows[key]


def names_of(rows: Iterable[RowSpec]) -> str:
    """The rows by name, each once."""
    return ", ".join(dict.fromkeys(row.name for row in rows))


def tell_harm(desk: PlantingDesk) -> None:
    """Poison, sap and spread of what is planted, as far as the plan's own word does not make more of it."""
    for spec, rows in taxa_of(desk.settled):
        for code, said in _harm(taxon_of(spec), forbidden_at(desk.plan.site)):
            where = ("containers", rows[0].index)
            desk.notes.note(code, where, f"{spec.plant.common_name} {said} ({names_of(rows)})")


def tell_ends(desk: PlantingDesk, windows: Iterable[WindowWorked]) -> None:
    """What the cold of half of the seasons ends well before the plan does."""
    soon = (desk.removed - timedelta(days=SOON_DAYS)).isoformat()
    ending: dict[tuple[str, float], list[str]] = {}
    for one in windows:
        if one.ends and one.ends < soon:
            ending.setdefault((one.ends, one.harmed_at_c), []).append(desk.plants[one.plant].common_name)
    for (day, harmed), plants in ending.items():
        when, last = date.fromisoformat(day), desk.removed
        said = (
            f"{', '.join(plants)}: {desk.days.seasons_words} a night of {harmed:g} °C, which harms, "
            f"by {when.day} {when:%B}; the plan ends on {last.day} {last:%B}"
        )
        mend = "Cover on such nights, or plan what follows."
        desk.notes.note("cold-ends", ("site", "season_end"), in_units(said, desk.plan.units), mend)


def _harm(taxon: Taxon, told: frozenset[str]) -> Iterator[tuple[str, str]]:
    for hazard in sorted(hazards(taxon) - told):
        code, said, _ = HARMFUL[hazard]
        spreads = f": {taxon.invasive_caution.split(': ')[-1]}"
        yield code, said + {"irritant": ": wear gloves and long sleeves", "invasive": spreads}.get(hazard, "")
    if taxon.toxic_to_pets == "unknown" and "toxic" not in told:
        yield "poisonous-plant", "may be poisonous to pets: not known"
    if taxon.invasive_caution.startswith("caution"):
        yield "spreading-plant", f"can spread: {taxon.invasive_caution.split(': ')[-1]}"
