"""Plants for a first plan, chosen by light and colour from the catalogue, in a simple way that is told in the plan.

For each of three places in a container, tall, filling, and trailing over the rim, the catalogue is gone through for
plants of that habit that bear the light, are not cold-season plants, are of middling or high thirst, harm nobody's
land, and fit the container. Of these the ones whose flowers are most of all in the wanted colours are taken, then those
that flower longest, then the first by name. Counts follow from usual spacing and the area of the mouth.
"""

from collections.abc import Iterator

from brimful.catalog import Catalog, Plant
from brimful.records import record

WANTED = {
    "warm": {"red", "scarlet", "orange", "yellow", "gold", "coral", "salmon", "apricot", "bronze", "pale-yellow"},
    "cool": {"blue", "violet", "purple", "pink", "lavender", "lilac", "pale-blue", "violet-blue", "magenta", "rose"},
    "white": {"white", "cream"},
}
ROLES = (("upright", 0.2), ("mounding", 0.5), ("trailing", 0.3))
"""Habit, and its share of the mouth (common practice, no source)."""
MOST_OF_ONE = 40


@record
class Chosen:
    """The planting of one container, and why it is so, in lines."""

    plants: tuple[str, ...]
    why: tuple[str, ...]


def chosen_plants(catalog: Catalog, *, sun: str, colours: str, look: str, mouth_m2: float, height_m: float) -> Chosen:
    """Plants for one container by light and colour."""
    plants = []
    for habit, share in ROLES:
        best = min(_suitable(catalog, habit, sun, height_m), key=lambda plant: _rank(plant, colours), default=None)
        if best is not None:
            count = _count(best, mouth_m2 * share, at_most=1 if habit == "upright" and mouth_m2 < 0.35 else MOST_OF_ONE)
            plants.append(f"{count} {best.key}")
    return Chosen(tuple(plants), tuple(_why(sun, colours, look)))


def _suitable(catalog: Catalog, habit: str, sun: str, height_m: float) -> Iterator[Plant]:
    for plant in catalog.plants.values():
        fits = plant.height_max_m <= max(0.5, 1.5 * height_m)
        kind = plant.habit == habit and plant.life in ("annual", "tender-perennial") and not plant.cold_season
        if kind and fits and sun in plant.light and plant.water_use != "low" and plant.invasive_caution == "none":
            yield plant


def _rank(plant: Plant, colours: str) -> tuple[float, int, str]:
    """Least is best: share of flowers in the wanted colours, months of bloom, key."""
    flowers = set(plant.flower_colours)
    wanted = WANTED.get(colours, flowers)
    share = len(flowers & wanted) / len(flowers) if flowers else 0.0
    months = ((plant.bloom_end_month or 0) - (plant.bloom_start_month or 1)) % 12 + 1 if plant.bloom_start_month else 0
    return -share, -months, plant.key


def _count(plant: Plant, area_m2: float, at_most: int) -> int:
    return max(1, min(at_most, round(area_m2 / plant.usual_spacing_m**2)))


def _why(sun: str, colours: str, look: str) -> Iterator[str]:
    yield f"Chosen from the catalogue for {sun}: one tall, one filling, one trailing; where there is a choice,"
    wish = (
        "what flowers longest" if colours not in WANTED else f"most of its flowers {colours}, then what flowers longest"
    )
    yield f"{wish}. Counts follow from usual spacing. `brimful swap` offers others."
    yield (
        "The tall one stands in the middle."
        if look == "all-round"
        else "They are seen from one side: the tall one stands at the back, the trailing one along the front."
    )
