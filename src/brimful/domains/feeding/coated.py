"""Coated (controlled-release) feed: how much goes in, and how fast warm mix lets it out."""

from collections.abc import Sequence

from brimful.records import record

REFERENCE_C = 21.1  # 70 °F, where many coatings are rated (HortScience 58(11):1459, abstract)
RELEASE_RATIO = 2.0  # times faster for each 10 °C; from memory, 1.6 to 2.6
REFEED_FRACTION = 0.7  # when to plan the next feed; common practice, no source
G_L_PER_LB_YD3 = 0.59327642110147  # 453.59237 g over 764.554857984 L, exact definitions
G_M2_PER_LB_1000_FT2 = 453.59237 / 92.90304  # exact definitions
MONTH_DAYS = 365.25 / 12.0


@record
class CoatedDose:
    """Coated feed for one container: what goes in, what each rule alone would say, and which rule held it down."""

    mass_g: float
    by_volume_g: float
    by_surface_g: float

    @property
    def capped(self) -> bool:
        """Whether the surface cap, not the volume rate, set the dose."""
        return self.by_surface_g < self.by_volume_g


def coated_dose(
    top_layer_l: float, rate_g_l: float, *, nitrogen_percent: float, surface_m2: float, cap_n_g_m2: float
) -> CoatedDose:
    """Coated feed for one container: the rate over the top layer only, held down by the area of the surface [g].

    Formula: smaller of rate × top layer, and cap × surface ÷ %N.
    Args: top_layer_l: mix in the top 25 to 30 cm [L]. rate_g_l: the label's rate [g/L]. nitrogen_percent: label N [%].
        surface_m2: mix surface [m²]. cap_n_g_m2: most nitrogen a season [g N/m²].
    Returns: the dose, and both rules' own amounts [g].
    Valid: all > 0. A rate over the whole depth of a deep container overdoses annuals.
    Source: top layer is common practice; cap form after NC State Extension, fertilizing flowers (4 to 6 lb N/1000 ft²).
    """
    if not min(top_layer_l, rate_g_l, nitrogen_percent, surface_m2, cap_n_g_m2) > 0.0:
        raise ValueError("top layer, rate, nitrogen, surface and cap are all expected to be above 0")
    by_volume = top_layer_l * rate_g_l
    by_surface = 100.0 * cap_n_g_m2 * surface_m2 / nitrogen_percent
    return CoatedDose(min(by_volume, by_surface), by_volume, by_surface)


def rate_for_months_g_l(nitrogen_g_l_month: float, months: float, nitrogen_percent: float) -> float:
    """Coated feed per litre of mix that carries so much nitrogen for so many months [g/L].

    Formula: rate = N per month × months ÷ (%N / 100).
    Args: nitrogen_g_l_month: nitrogen [g N/L a month]. months: growing months. nitrogen_percent: label N [%].
    Returns: feed [g/L].
    Valid: all > 0.
    Source: nursery arithmetic in a trade article after Swanson (1/3 lb N/yd³ a month).
    """
    if not min(nitrogen_g_l_month, months, nitrogen_percent) > 0.0:
        raise ValueError("nitrogen a month, months and nitrogen percent are all expected to be above 0")
    return nitrogen_g_l_month * months * 100.0 / nitrogen_percent


def longevity_days(
    rated_days: float, mix_temperature_c: float, *, reference_c: float = REFERENCE_C, ratio: float = RELEASE_RATIO
) -> float:
    """How long a coated feed lasts in mix at one steady temperature [days].

    Formula: L(T) = L(reference) × Q^((T reference − T) / 10).
    Args: rated_days: on the bag, at the reference [d]. mix_temperature_c: of the mix, not the air [°C].
        reference_c: where the bag rates it [°C]. ratio: Q, times faster for each 10 °C.
    Returns: days.
    Valid: rated_days > 0, ratio ≥ 1; mix 5 to 40 °C.
    Source: Q10 form; Q about 2 from memory (1.6 to 2.6).

    >>> round(longevity_days(5.5, 30.0), 2)
    2.97
    """
    if not (rated_days > 0.0 and ratio >= 1.0):
        raise ValueError(f"rated_days {rated_days:g} and ratio {ratio:g}; expected above 0 and at least 1")
    return float(rated_days * ratio ** ((reference_c - mix_temperature_c) / 10.0))


def released_fractions(
    mix_temperatures_c: Sequence[float],
    rated_days: float,
    *,
    reference_c: float = REFERENCE_C,
    ratio: float = RELEASE_RATIO,
) -> tuple[float, ...]:
    """Share of a coated feed that is out by the end of each day, from the mix's daily mean temperature [0 to 1].

    Formula: sum over days of 1 day ÷ L(T of that day), stopped at 1.
    Args: mix_temperatures_c: one a day from the day it goes in [°C]. rated_days: on the bag [d].
        reference_c, ratio: of L(T).
    Returns: one share a day, never falling.
    Valid: as longevity_days.
    Source: sum over the Q10 form; a dark wall runs 5 to 10 °C above the air (common practice, no source).
    """
    out: list[float] = []
    share = 0.0
    for temperature in mix_temperatures_c:
        share += 1.0 / longevity_days(rated_days, temperature, reference_c=reference_c, ratio=ratio)
        out.append(min(1.0, share))
    return tuple(out)


def refeed_day(released: Sequence[float], *, at: float = REFEED_FRACTION) -> int | None:
    """The first day, counted from 1, by which so much of a coated feed is out; None where that never comes.

    Args: released: share out by the end of each day [0 to 1]. at: when to plan more [0 to 1].
    Returns: day number, or None.
    Valid: released never falls.
    Source: threshold is common practice, no source.
    """
    return next((day for day, share in enumerate(released, start=1) if share >= at), None)
