"""Reference evapotranspiration of a whole record, day by day, with the missing parts filled and the filling told."""

from collections import Counter
from collections.abc import Iterable, Iterator

import numpy as np

from brimful.domains.climate import evapotranspiration, missing, radiation
from brimful.domains.climate.missing import SunAbove
from brimful.domains.climate.record import DailyRecord, DayNumbers, Fill, Place
from brimful.domains.climate.values import FloatArray
from brimful.records import record

BLOCK_DAYS = 8192  # so that all of a block's arrays stay in the processor's cache: 2 to 3 times as fast
_DAYS = np.arange(1.0, 367.0)


@record
class ReferenceEt:
    """ET0 of each day, what went into it, and which rule gave what on how many days."""

    et0_mm: FloatArray
    radiation_mj_m2: FloatArray
    extraterrestrial_mj_m2: FloatArray
    vapour_kpa: FloatArray
    wind_2m_m_s: FloatArray
    fills: tuple[Fill, ...]


def reference_et_of_days(record: DailyRecord, place: Place) -> ReferenceEt:
    """Water that a well-watered lawn gives to the air on each day of a record, in mm (FAO-56, equation 6).

    Formula: radiation, vapour and wind by the best rule that each day allows (equations 14–19, 35, 47–50);
    R_n = 0.77·R_s − R_nl (38–40); G = 0 (42); then equation 6.

    Args:
        record: what is known of each day, arrays of any one shape
        place: latitude, elevation, height of the wind instrument, inland or coastal
    Returns: ET0 [mm/day] and its inputs, of the record's shape; NaN where a temperature is not known
    Valid: all latitudes; below 6,000 m
    Source: Allen et al. (1998), FAO Irrigation and Drainage Paper 56, chapters 3 and 4
    """
    table = _sun_by_day(place)
    blocks = [_block(part, place, _sun_on(part.day_of_year, table)) for part in _blocks(record)]
    names = ("et0_mm", "radiation_mj_m2", "extraterrestrial_mj_m2", "vapour_kpa", "wind_2m_m_s")
    shape = record.tmax_c.shape
    joined = {name: np.concatenate([getattr(b, name) for b in blocks]).reshape(shape) for name in names}
    return ReferenceEt(**joined, fills=_summed(fill for block in blocks for fill in block.fills))


def _block(record: DailyRecord, place: Place, sun: SunAbove) -> ReferenceEt:
    """One block of days through the whole chain."""
    sunlight, sun_fills = missing.radiation_of_days(record, place, sun)
    vapour, vapour_fills = missing.vapour_of_days(record, place)
    wind, wind_fills = missing.wind_of_days(record, place)
    clearness = radiation.relative_clearness(sunlight, sun.clear_sky_mj_m2)
    longwave = radiation.net_longwave(record.tmax_c, record.tmin_c, vapour_kpa=vapour, clearness=clearness)
    et0 = evapotranspiration.reference_evapotranspiration(
        record.tmax_c,
        record.tmin_c,
        vapour_kpa=vapour,
        net_energy_mj_m2=radiation.net_radiation(radiation.net_shortwave(sunlight), longwave),
        wind_2m_m_s=wind,
        elevation_m=place.elevation_m,
    )
    fills = sun_fills + vapour_fills + wind_fills
    return ReferenceEt(np.asarray(et0), sunlight, sun.extraterrestrial_mj_m2, vapour, wind, fills)


def _sun_by_day(place: Place) -> SunAbove:
    """What the sun gives on each of the 366 days at this latitude: worked once, looked up ever after."""
    above = np.asarray(radiation.extraterrestrial_radiation(place.latitude_deg, _DAYS))
    clear = np.asarray(radiation.clear_sky_radiation(place.elevation_m, above))
    return SunAbove(above, clear, np.asarray(radiation.day_length(place.latitude_deg, _DAYS)))


def _sun_on(day_of_year: DayNumbers, table: SunAbove) -> SunAbove:
    which = day_of_year - 1
    return SunAbove(table.extraterrestrial_mj_m2[which], table.clear_sky_mj_m2[which], table.day_length_h[which])


def _blocks(record: DailyRecord) -> Iterator[DailyRecord]:
    flat = {name: np.ravel(values) for name, values in record.known().items()}
    for start in range(0, max(record.tmax_c.size, 1), BLOCK_DAYS):
        yield DailyRecord(**{name: values[start : start + BLOCK_DAYS] for name, values in flat.items()})


def _summed(fills: Iterable[Fill]) -> tuple[Fill, ...]:
    counts: Counter[tuple[str, str, bool]] = Counter()
    for fill in fills:
        counts[(fill.variable, fill.rule, fill.measured)] += fill.days_count
    return tuple(Fill(variable, rule, count, measured) for (variable, rule, measured), count in counts.items())
