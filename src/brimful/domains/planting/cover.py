"""How cover closes with warmth: a logistic curve in degree-days."""

import math

from brimful.records import record

NINE_TENTHS = 0.9
USUAL_MEAN_C = 20.0
"""Mean temperature that "weeks to fill" is told for (common practice, no source)."""


@record
class Hurry:
    """What a full look at once brings and costs against grow-in, all to nine tenths of cover at one mean temperature.

    `days_sooner` comes the cover, and with it the thirst; `plants_factor` on the bill; `root_ball_share` of the mix.
    """

    days_sooner: float
    plants_factor: float
    root_ball_share: float


def initial_cover(plants: float, plant_width_m: float, mouth_area_m2: float) -> float:
    """Share of the mouth under leaves on planting day, at most 1.

    Formula: C₀ = N (π/4) d₀² / A.

    Args:
        plants: how many [1]; plant_width_m: d₀, 0.13–0.15 of a 4-inch plant, 0.08–0.10 of a pack plant [m];
        mouth_area_m2: [m²]
    Returns: C₀ [1]
    Valid: all above 0
    Source: definition; widths common practice, no source
    """
    if not (plants >= 0.0 and plant_width_m > 0.0 and mouth_area_m2 > 0.0):
        raise ValueError(f"{plants} plants {plant_width_m} m wide on {mouth_area_m2} m² were given: expected above 0")
    return min(1.0, plants * math.pi / 4.0 * plant_width_m**2 / mouth_area_m2)


def grown_cover(cover: float, rate_per_c_d: float, degree_days: float) -> float:
    """Cover after so many more degree-days (logistic growth, Verhulst).

    Formula: C = C₀ e^(kθ) / (1 + C₀ (e^(kθ) − 1)).

    Args:
        cover: C₀ [1]; rate_per_c_d: k [1/(°C d)]; degree_days: θ above the base temperature [°C d]
    Returns: cover [1]; two stretches one after the other give the same as both at once
    Valid: cover 0–1
    Source: logistic fits top-view area of lettuce with R² 0.91 (Li et al. 2022, Agronomy 12:860, read)

    >>> round(grown_cover(0.20, 0.00656, 546), 2)
    0.9
    """
    _share(cover)
    fade = math.exp(-rate_per_c_d * degree_days)
    return cover / (cover + (1.0 - cover) * fade) if cover > 0.0 else 0.0


def degree_days_to(cover: float, rate_per_c_d: float, goal: float = NINE_TENTHS) -> float:
    """Degree-days until cover reaches a goal, 0 where it is there [°C d] (logistic growth turned round).

    Formula: θ = ln[ g (1 − C₀) / (C₀ (1 − g)) ] / k; for nine tenths ln[ 9 (1 − C₀)/C₀ ] / k.

    Args:
        cover: C₀ [1]; rate_per_c_d: k [1/(°C d)]; goal: g [1]
    Returns: θ [°C d]
    Valid: 0 < C₀ < 1, 0 < g < 1, k > 0
    Source: logistic curve
    """
    if cover >= goal:
        return 0.0
    if not (cover > 0.0 and goal < 1.0 and rate_per_c_d > 0.0):
        given = f"cover {cover}, goal {goal}, rate {rate_per_c_d} were given"
        raise ValueError(f"{given}: expected 0 < cover, goal < 1, rate > 0")
    return _steps(cover, goal) / rate_per_c_d


def rate_from_weeks(cover: float, weeks_to_fill: float, base_c: float, goal: float = NINE_TENTHS) -> float:
    """Rate k of the curve that reaches the goal in the weeks a grower tells [1/(°C d)], at a mean of 20 °C.

    Formula: k = ln[ 9 (1 − C₀)/C₀ ] / (7 W (20 − T_b)).

    Args:
        cover: C₀ [1]; weeks_to_fill: W [weeks]; base_c: T_b [°C]; goal: [1]
    Returns: k [1/(°C d)]; 0 where the goal is reached on planting day
    Valid: W > 0, T_b below 20 °C
    Source: own calibration on common practice, no source

    >>> round(rate_from_weeks(0.20, 6, 7.0), 5)
    0.00656
    """
    if not (weeks_to_fill > 0.0 and base_c < USUAL_MEAN_C):
        raise ValueError(f"{weeks_to_fill} weeks, base {base_c} °C were given: expected weeks > 0, base below 20 °C")
    return max(0.0, _steps(cover, goal)) / (7.0 * weeks_to_fill * (USUAL_MEAN_C - base_c))


def hurry(cover: float, rate_per_c_d: float, *, factor: float, warmth_c: float, ball_share: float) -> Hurry:
    """What planting closer brings and costs: days sooner to nine tenths of cover, plants, root balls in the mix.

    Formula: [θ₉₀(C₀) − θ₉₀(f C₀)] / (T − T_b); bill and root balls times f.

    Args:
        cover: C₀ at grow-in density [1]; rate_per_c_d: k [1/(°C d)]; factor: f, plants over grow-in plants [1];
        warmth_c: mean temperature above the base [°C]; ball_share: root balls over mix at grow-in density [1]
    Returns: a Hurry
    Valid: factor of 1 or more, f C₀ at most 1
    Source: logistic curve; closer planting also needs water and trims sooner (garden column, read)
    """
    if not (factor >= 1.0 and warmth_c > 0.0):
        raise ValueError(f"factor {factor}, warmth {warmth_c} °C were given: expected 1 or more, and above 0")
    sooner = degree_days_to(cover, rate_per_c_d) - degree_days_to(min(1.0, factor * cover), rate_per_c_d)
    return Hurry(sooner / warmth_c, factor, factor * ball_share)


def _steps(cover: float, goal: float) -> float:
    _share(cover)
    return math.log(goal * (1.0 - cover) / (cover * (1.0 - goal))) if 0.0 < cover < 1.0 else 0.0


def _share(cover: float) -> None:
    if not 0.0 <= cover <= 1.0:
        raise ValueError(f"cover {cover} was given: expected a share from 0 to 1")
