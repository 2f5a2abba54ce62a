"""Where a part of the weather is missing: the FAO-56 rules (equations 35, 47–50), best first, day by day.

Each function gives the values and, beside them, which rule gave how many of them.
"""

from collections.abc import Callable, Sequence

import numpy as np

from brimful.domains.climate import atmosphere, radiation
from brimful.domains.climate.record import DailyRecord, Fill, Place
from brimful.domains.climate.values import FloatArray, Values
from brimful.records import record


@record
class SunAbove:
    """What the sun could give on each day of a record: above the air, on a cloudless day, and for how long."""

    extraterrestrial_mj_m2: FloatArray
    clear_sky_mj_m2: FloatArray
    day_length_h: FloatArray


@record
class Rule:
    """One way to a value: its name, whether it is a reading, what it needs, and the sum."""

    name: str
    measured: bool
    needs: tuple[FloatArray | None, ...]
    value: Callable[[], Values]


def radiation_of_days(record: DailyRecord, place: Place, sun: SunAbove) -> tuple[FloatArray, tuple[Fill, ...]]:
    """Solar radiation of each day in MJ/m², by the best rule that the day allows (FAO-56, equations 35 and 50).

    Formula: measured; else from hours of sunshine (35); else from the swing between day and night (50).

    Args:
        record: what is known of each day
        place: inland or coastal
        sun: what the sun could give
    Returns: radiation [MJ/m²/day], one per day, and the rules used
    Valid: equation 50 as the mean of several days
    Source: FAO-56, p.50 and p.59–61
    """
    above, k = sun.extraterrestrial_mj_m2, radiation.ANGSTROM_COASTAL if place.coastal else radiation.ANGSTROM_INLAND
    where = "by the coast" if place.coastal else "inland"
    return first_known(
        "radiation",
        record.tmax_c,
        (
            Rule("measured", True, (record.radiation_mj_m2,), lambda: _given(record.radiation_mj_m2)),
            Rule(
                "hours of sunshine (FAO-56 eq. 35)",
                True,
                (record.sunshine_h,),
                lambda: radiation.radiation_from_sunshine(
                    _given(record.sunshine_h), sun.day_length_h, extraterrestrial_mj_m2=above
                ),
            ),
            Rule(
                f"temperature swing, k = {k} {where} (FAO-56 eq. 50)",
                False,
                (),
                lambda: radiation.radiation_from_temperatures(
                    record.tmax_c,
                    record.tmin_c,
                    extraterrestrial_mj_m2=above,
                    clear_sky_mj_m2=sun.clear_sky_mj_m2,
                    coefficient=k,
                ),
            ),
        ),
    )


def vapour_of_days(record: DailyRecord, place: Place) -> tuple[FloatArray, tuple[Fill, ...]]:
    """Vapour in the air on each day in kPa, by the best rule that the day allows (FAO-56, equations 14–19 and 48).

    Formula: measured; dew point (14); highest and lowest humidity (17); highest humidity (18); mean humidity (19);
    else the night is taken to cool to the dew point, Tdew = Tmin (48), less 2 to 3 °C at arid places.

    Args:
        record: what is known of each day
        place: how far the dew point lies below Tmin where the humidity is not known
    Returns: actual vapour pressure [kPa], one per day, and the rules used
    Valid: equation 48 where the ground is watered
    Source: FAO-56, p.37–39 and p.58
    """
    high, low, mean = record.rh_max_pct, record.rh_min_pct, record.rh_mean_pct
    tmax, tmin, below = record.tmax_c, record.tmin_c, place.dew_below_tmin_c
    guess = "Tdew = Tmin" if below == 0 else f"Tdew = Tmin − {below:g} °C"
    saturated = atmosphere.saturation_vapour_pressure
    return first_known(
        "vapour pressure",
        tmax,
        (
            Rule("measured", True, (record.vapour_kpa,), lambda: _given(record.vapour_kpa)),
            Rule("dew point (FAO-56 eq. 14)", True, (record.dew_c,), lambda: saturated(_given(record.dew_c))),
            Rule(
                "highest and lowest humidity (FAO-56 eq. 17)",
                True,
                (high, low),
                lambda: atmosphere.vapour_from_humidity_extremes(
                    tmax, tmin, rh_max_pct=_given(high), rh_min_pct=_given(low)
                ),
            ),
            Rule(
                "highest humidity (FAO-56 eq. 18)",
                True,
                (high,),
                lambda: atmosphere.vapour_from_highest_humidity(tmin, _given(high)),
            ),
            Rule(
                "mean humidity (FAO-56 eq. 19)",
                True,
                (mean,),
                lambda: atmosphere.vapour_from_mean_humidity(tmax, tmin, rh_mean_pct=_given(mean)),
            ),
            Rule(f"{guess} (FAO-56 eq. 48)", False, (), lambda: saturated(tmin - below)),
        ),
    )


def wind_of_days(record: DailyRecord, place: Place) -> tuple[FloatArray, tuple[Fill, ...]]:
    """Wind of each day at 2 m in m/s, 2 m/s where none is known (FAO-56, equation 47 and p.63).

    Formula: measured, brought down to 2 m (47); else 2 m/s, the mean of 2,000 stations of the world.

    Args:
        record: what is known of each day
        place: the height of the instrument
    Returns: wind at 2 m [m/s], one per day, and the rules used
    Valid: open ground
    Source: FAO-56, p.56 and p.63
    """
    height = place.wind_height_m
    reading = "measured" if height == 2.0 else f"measured at {height:g} m (FAO-56 eq. 47)"
    default = atmosphere.DEFAULT_WIND_2M_M_S
    return first_known(
        "wind",
        record.tmax_c,
        (
            Rule(reading, True, (record.wind_m_s,), lambda: _at_2m(_given(record.wind_m_s), height)),
            Rule(f"{default:g} m/s taken (FAO-56 p.63)", False, (), lambda: default),
        ),
    )


def first_known(variable: str, like: FloatArray, rules: Sequence[Rule]) -> tuple[FloatArray, tuple[Fill, ...]]:
    """Each day's value by the first rule that knows it, and how many days each rule gave (no equation of its own).

    Args:
        variable: what is sought
        like: an array of the wanted shape
        rules: best first; one whose needs are absent is passed over
    Returns: the values, NaN where no rule knows, and the rules used
    Valid: arrays of one shape
    Source: the order is that of FAO-56, chapter 3
    """
    result = np.full(like.shape, np.nan)
    fills: list[Fill] = []
    unknown = np.ones(like.shape, dtype=bool)
    for rule in rules:
        if any(need is None for need in rule.needs):
            continue
        values = np.broadcast_to(np.asarray(rule.value(), dtype=np.float64), like.shape)
        known = unknown & np.isfinite(values)
        count = int(np.count_nonzero(known))
        result = values if count == like.size else np.where(known, values, result)
        unknown &= ~known
        fills += [Fill(variable, rule.name, count, rule.measured)] if count else []
        if not unknown.any():
            break
    return result, tuple(fills)


def _given(values: FloatArray | None) -> FloatArray:
    if values is None:
        raise ValueError("a rule was asked for values that are absent; expected its needs to be checked first")
    return values


def _at_2m(wind_m_s: FloatArray, height_m: float) -> Values:
    return wind_m_s if height_m == 2.0 else atmosphere.wind_at_2m(wind_m_s, height_m)
