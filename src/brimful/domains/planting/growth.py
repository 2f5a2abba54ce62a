"""A plant's width and height day by day: logistic in degree-days, cut by trims, ended by frost."""

import math
from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from brimful.domains.planting.bloom import trim_days
from brimful.domains.planting.canopy import Circle
from brimful.domains.planting.cover import NINE_TENTHS, rate_from_weeks
from brimful.domains.planting.layout import Place
from brimful.domains.planting.taxon import Taxon
from brimful.records import record

OPTIMUM_C = 26.0
"""Warmer days count no more; flowering is fastest at 19 °C (dahlia) to 28 °C (gazania) (Blanchard & Runkle 2011, read
second-hand); value chosen."""
BASE_C: Mapping[float, tuple[str, ...]] = {
    3.0: ("Viola", "Antirrhinum", "Lobularia", "Osteospermum"),
    5.0: ("Petunia", "Calibrachoa", "Glandularia", "Verbena", "Tagetes", "Dianthus"),
    7.0: ("Pelargonium", "Lobelia", "Zinnia", "Impatiens", "Dahlia"),
    9.5: ("Angelonia", "Begonia", "Celosia", "Catharanthus", "Coleus", "Pentas", "Ipomoea", "Portulaca"),
}
"""Base temperature by genus, from memory, ± 2 °C, grouped to fit limits of 4 °C and 8 °C (extension text, read)."""
OTHER_BASE_C = {True: 3.0, False: 7.0}
"""For all others, by whether they like the cold season (from memory)."""
HARD_TRIM_KEEPS, LIGHT_TRIM_KEEPS = 0.58, 0.90
"""Cover left after a trim: 0.5 to 0.65 after a hard one (common practice, no source); light one: the same."""
HEIGHT_WEEKS_MORE = 2.0
"""Height fills two weeks after width (our own rule, no source)."""
NEW_HEIGHT_OVER_WIDTH = 1.0
"""A plant as sold stands about as high as wide, if it grows so high (common practice, no source)."""
NEW_OVER_BALL = 1.5
"""Width of a plant as sold over that of its pot: 4 in pots hold plants of 13 to 15 cm (common practice, no source)."""
REACH_BEYOND_RIM_M = 0.30
"""How far leaves are let hang out beyond the rim before they are cut back (common practice, no source)."""


@record
class Habitus:
    """A plant's curve: new and grown width and height [m], rates [1/(°C d)], base and killing temperature [°C]."""

    new_width_m: float
    width_m: float
    width_rate: float
    new_height_m: float
    height_m: float
    height_rate: float
    base_c: float
    kill_c: float


@record
class Stand:
    """A plant on one day: half its width, its height [m], and whether it lives."""

    radius_m: float
    height_m: float
    alive: bool


def base_temperature_c(taxon: Taxon) -> float:
    """Temperature below which a taxon does not grow [°C] (from memory, ± 2 °C)."""
    return next((base for base, genera in BASE_C.items() if taxon.genus in genera), OTHER_BASE_C[taxon.cold_season])


def new_plant_width_m(root_ball_width_m: float) -> float:
    """Width of a plant's leaves on the day it is planted [m].

    Formula: 1.5 × width of its pot.
    Args: root_ball_width_m [m]
    Returns: [m]
    Valid: above 0
    Source: 4 in pots hold plants 13 to 15 cm wide (common practice, no source)

    >>> round(new_plant_width_m(0.09), 3)
    0.135
    """
    if root_ball_width_m <= 0:
        raise ValueError(f"root ball {root_ball_width_m} m wide was given; expected above 0")
    return NEW_OVER_BALL * root_ball_width_m


def habitus_of(taxon: Taxon, new_width_m: float, *, vigour: float = 0.5) -> Habitus:
    """The growth curve of a taxon from what growers tell: weeks to fill at its usual spacing, grown sizes.

    Formula: own ground on a logistic curve from new to grown width, that fills nine tenths of its square of spacing
    (or of its own grown width, if less) in W weeks at 20 °C; height likewise in W + 2 weeks.

    Args:
        taxon: the plant; new_width_m: on planting day, 0.13–0.15 for a 4-inch plant [m]; vigour: 0 the least, 1 the
            greatest size of the table
    Returns: a Habitus
    Valid: W = 0 stands for plants bought full grown
    Source: logistic form (Li et al. 2022, Agronomy 12:860, read); calibration on common practice, no source
    """
    if not (new_width_m > 0.0 and 0.0 <= vigour <= 1.0):
        raise ValueError(f"new width {new_width_m} m, vigour {vigour} were given: expected above 0, and 0 to 1")
    width, height, base = taxon.spread_m(vigour), taxon.height_m(vigour), base_temperature_c(taxon)
    if taxon.weeks_to_fill == 0.0:
        return Habitus(width, width, 0.0, height, height, 0.0, base, taxon.min_temp_damage_c)
    new_width, new_height = min(new_width_m, width), min(NEW_HEIGHT_OVER_WIDTH * new_width_m, height)
    ground = (new_width / width) ** 2
    goal = NINE_TENTHS * min(1.0, taxon.usual_spacing_m**2 / (math.pi / 4.0 * width**2))
    goal = goal if goal > ground else NINE_TENTHS  # planted closer than wide: what remains is its own width
    width_rate = rate_from_weeks(ground, taxon.weeks_to_fill, base, goal)
    height_rate = rate_from_weeks(new_height / height, taxon.weeks_to_fill + HEIGHT_WEEKS_MORE, base)
    return Habitus(new_width, width, width_rate, new_height, height, height_rate, base, taxon.min_temp_damage_c)


def cut_back(taxon: Taxon, planted: date, days: int, *, southern: bool = False) -> dict[int, float]:
    """Share of cover that a taxon keeps on each day it is cut back, for grow.

    Formula: 0.58 after a hard trim, 0.90 after a light one, on the days of trim_days; not where bought full grown.

    Args:
        taxon: the plant; planted: day; days: how many it stands; southern: of the equator
    Returns: day after planting → share kept
    Valid: any count of days
    Source: shares common practice, no source
    """
    if taxon.weeks_to_fill == 0.0:
        return {}
    keeps = HARD_TRIM_KEEPS if taxon.trim == "hard" else LIGHT_TRIM_KEEPS
    return dict.fromkeys(trim_days(taxon.trim, planted, days, southern=southern), keeps)


def grow(
    habitus: Habitus, mean_c: Sequence[float], min_c: Sequence[float], trims: Mapping[int, float] | None = None
) -> tuple[Stand, ...]:
    """Width and height of a plant on each day, first as planted [m] (logistic in degree-days).

    Formula: each day the curve moves on by max(0, min(T, 26) − T_b); a trim keeps a share of cover and height; a night
    at or below the taxon's damaging temperature ends it.

    Args:
        habitus: from habitus_of; mean_c, min_c: daily mean and lowest temperature [°C]; trims: day, counted from 0 on
            planting day, → share of cover kept
    Returns: one Stand more than there are days
    Valid: shares 0–1
    Source: model of this program; trims common practice, no source
    """
    if len(mean_c) != len(min_c) or any(not 0.0 <= kept <= 1.0 for kept in (trims or {}).values()):
        given = f"{len(mean_c)} means, {len(min_c)} lows, trims {trims} were given"
        raise ValueError(f"{given}: expected as many, and shares 0 to 1")
    ground, tall, alive = (habitus.new_width_m / habitus.width_m) ** 2, habitus.new_height_m / habitus.height_m, True
    stands = [_stand(habitus, ground, tall, alive)]
    base, wide, high, exp = habitus.base_c, habitus.width_rate, habitus.height_rate, math.exp
    for day, (mean, low) in enumerate(zip(mean_c, min_c, strict=True)):
        alive = alive and low > habitus.kill_c
        warmth = max(0.0, min(mean, OPTIMUM_C) - base)
        if trims and day in trims:
            ground, tall = ground * trims[day], tall * math.sqrt(trims[day])
        if warmth > 0.0:  # grown_cover, spelled out: this line is run for every taxon and day of a season
            ground = ground / (ground + (1.0 - ground) * exp(-wide * warmth)) if ground > 0.0 else 0.0
            tall = tall / (tall + (1.0 - tall) * exp(-high * warmth)) if tall > 0.0 else 0.0
        stands.append(_stand(habitus, ground, tall, alive))
    return tuple(stands)


def reach_m(stand: Stand, to_rim_m: float) -> float:
    """Half the width of a plant's leaves [m], cut back where they hang more than 0.30 m beyond the rim.

    Formula: min(r, way from stem to rim + 0.30 m).
    Args: stand: of its day; to_rim_m: from its stem to the rim [m]
    Returns: [m]
    Valid: a stem within the rim
    Source: common practice, no source
    """
    return min(stand.radius_m, max(0.0, to_rim_m) + REACH_BEYOND_RIM_M)


def circles_on(places: Iterable[Place], stands: Mapping[str, Stand]) -> tuple[Circle, ...]:
    """The living plants of a container as circles (x, y, radius) [m], for canopy areas, gaps and overhang."""
    return tuple((p.x_m, p.y_m, reach_m(stands[p.key], p.to_rim_m)) for p in places if stands[p.key].alive)


def _stand(habitus: Habitus, ground: float, tall: float, alive: bool) -> Stand:
    if not alive:
        return Stand(0.0, 0.0, alive=False)
    return Stand(math.sqrt(ground) * habitus.width_m / 2.0, tall * habitus.height_m, alive=True)
