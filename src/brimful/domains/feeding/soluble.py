"""Soluble feed: from the strength wanted to the amount to weigh, and back."""

from brimful.records import record

GALLON_L = 3.785411784  # US liquid gallon, exact
OUNCE_G = 28.349523125  # avoirdupois ounce, exact
TEASPOON_ML = 4.92892159375  # US teaspoon, exact
G_L_PER_OUNCE_IN_100_GALLONS = OUNCE_G / (100.0 * GALLON_L)  # 0.07489 g/L, the exact form of the trade's "75 rule"
BULK_DENSITY_G_ML = 1.0  # loose soluble feed crystals; common practice, no source
SPOON_ERROR = 0.15  # how far a level spoon is off by grain and packing; common practice, no source
PHOSPHORUS_IN_PHOSPHATE = 0.4364  # P in P2O5 by mass, stoichiometry
POTASSIUM_IN_POTASH = 0.8301  # K in K2O by mass, stoichiometry


@record
class Approximate:
    """A figure that is only roughly known: the likely value and the bounds it should lie in."""

    likely: float
    low: float
    high: float


def label_fault(nitrogen_percent: float, phosphate_percent: float = 0.0, potash_percent: float = 0.0) -> str:
    """What is impossible about a feed label, in words; empty where the label can be true.

    Args: nitrogen_percent, phosphate_percent (P2O5), potash_percent (K2O): printed percentages [%].
    Returns: one sentence, or "".
    Valid: any numbers.
    Source: definition; the three percentages are shares of one mass.

    >>> label_fault(20, 10, 20)
    ''
    """
    parts = (nitrogen_percent, phosphate_percent, potash_percent)
    if not all(part >= 0.0 for part in parts):
        return "A label percentage is below zero."
    if sum(parts) > 100.0:
        return f"The label adds up to {sum(parts):g} %, more than the whole bag."
    return ""


def feed_g_l(nitrogen_ppm: float, nitrogen_percent: float) -> float:
    """Grams of feed to dissolve in each litre of water for the nitrogen strength wanted [g/L].

    Formula: g/L = ppm / (10 × %N), since 1 ppm is 1 mg/L.
    Args: nitrogen_ppm: strength wanted [mg N/L]. nitrogen_percent: nitrogen on the label [%].
    Returns: feed [g/L].
    Valid: nitrogen_ppm ≥ 0, 0 < nitrogen_percent ≤ 100.
    Source: definition; agrees with University of Massachusetts Extension, fertilizer calculations (2011).

    >>> feed_g_l(200, 20)
    1.0
    """
    return _not_negative("nitrogen_ppm", nitrogen_ppm) / (10.0 * _percent(nitrogen_percent))


def nitrogen_ppm(feed_strength_g_l: float, nitrogen_percent: float) -> float:
    """Nitrogen strength of a solution with so many grams of feed in a litre [mg N/L = ppm].

    Formula: ppm = g/L × 10 × %N.
    Args: feed_strength_g_l: feed in the water [g/L]. nitrogen_percent: nitrogen on the label [%].
    Returns: nitrogen [mg/L].
    Valid: feed_strength_g_l ≥ 0, 0 < nitrogen_percent ≤ 100.
    Source: definition.

    >>> nitrogen_ppm(1.0, 20)
    200.0
    """
    return _not_negative("feed_strength_g_l", feed_strength_g_l) * 10.0 * _percent(nitrogen_percent)


def ounces_per_100_gallons(strength_g_l: float) -> float:
    """A strength in grams per litre as ounces by weight in 100 US gallons [oz/100 gal].

    Formula: oz/100 gal = g/L ÷ 0.07489.
    Args: strength_g_l: feed in the water [g/L].
    Returns: ounces (weight, not fluid ounces) in 100 US gallons.
    Valid: strength_g_l ≥ 0.
    Source: exact unit definitions; the trade rounds 74.89 mg/L to 75 (Texas A&M, hortipm nutrient calculations).

    >>> round(ounces_per_100_gallons(feed_g_l(200, 20)), 2)
    13.35
    """
    return _not_negative("strength_g_l", strength_g_l) / G_L_PER_OUNCE_IN_100_GALLONS


def g_l_from_ounces(ounces_in_100_gallons: float) -> float:
    """Ounces by weight in 100 US gallons as grams per litre [g/L].

    Formula: g/L = oz/100 gal × 0.07489.
    Args: ounces_in_100_gallons: weight of feed [oz/100 gal].
    Returns: feed in the water [g/L].
    Valid: ounces_in_100_gallons ≥ 0.
    Source: exact unit definitions.

    >>> round(nitrogen_ppm(g_l_from_ounces(1.0), 15), 1)
    11.2
    """
    return _not_negative("ounces_in_100_gallons", ounces_in_100_gallons) * G_L_PER_OUNCE_IN_100_GALLONS


def teaspoons_per_gallon(strength_g_l: float, *, bulk_density_g_ml: float = BULK_DENSITY_G_ML) -> Approximate:
    """About how many level teaspoons go in a US gallon; approximate, weigh where you can [tsp/gal].

    Formula: teaspoons = g/L × 3.785 L ÷ (4.93 mL × bulk density), ± 15 %.
    Args: strength_g_l: feed in the water [g/L]. bulk_density_g_ml: the loose feed [g/mL].
    Returns: likely, low and high count of level teaspoons.
    Valid: strength_g_l ≥ 0, bulk_density_g_ml > 0.
    Source: exact volumes; density and spread are common practice, no source.
    """
    if not bulk_density_g_ml > 0.0:
        raise ValueError(f"bulk_density_g_ml is {bulk_density_g_ml:g}; expected above 0")
    likely = _not_negative("strength_g_l", strength_g_l) * GALLON_L / (TEASPOON_ML * bulk_density_g_ml)
    return Approximate(likely, likely * (1.0 - SPOON_ERROR), likely * (1.0 + SPOON_ERROR))


def g_l_from_teaspoons(teaspoons: float, *, bulk_density_g_ml: float = BULK_DENSITY_G_ML) -> Approximate:
    """About how strong a solution is with so many level teaspoons in a US gallon; approximate [g/L].

    Formula: g/L = teaspoons × 4.93 mL × bulk density ÷ 3.785 L, ± 15 %.
    Args: teaspoons: level teaspoons in a gallon [tsp/gal]. bulk_density_g_ml: the loose feed [g/mL].
    Returns: likely, low and high strength [g/L].
    Valid: teaspoons ≥ 0, bulk_density_g_ml > 0.
    Source: exact volumes; density and spread are common practice, no source.
    """
    if not bulk_density_g_ml > 0.0:
        raise ValueError(f"bulk_density_g_ml is {bulk_density_g_ml:g}; expected above 0")
    likely = _not_negative("teaspoons", teaspoons) * TEASPOON_ML * bulk_density_g_ml / GALLON_L
    return Approximate(likely, likely * (1.0 - SPOON_ERROR), likely * (1.0 + SPOON_ERROR))


def element_percents(phosphate_percent: float, potash_percent: float) -> tuple[float, float]:
    """Phosphorus and potassium themselves, from the oxides a label prints [%].

    Formula: P = 0.4364 × P2O5, K = 0.8301 × K2O.
    Args: phosphate_percent: P2O5 [%]. potash_percent: K2O [%].
    Returns: (phosphorus, potassium) [%].
    Valid: both ≥ 0.
    Source: stoichiometry.
    """
    phosphate = _not_negative("phosphate_percent", phosphate_percent)
    return phosphate * PHOSPHORUS_IN_PHOSPHATE, _not_negative("potash_percent", potash_percent) * POTASSIUM_IN_POTASH


def _percent(value: float) -> float:
    if not 0.0 < value <= 100.0:
        raise ValueError(f"nitrogen_percent is {value:g}; expected above 0 and at most 100")
    return value


def _not_negative(name: str, value: float) -> float:
    if not value >= 0.0:
        raise ValueError(f"{name} is {value:g}; expected 0 or more")
    return value
