"""What a season hands to the store, and what comes back: litres by container, year and day."""

from dataclasses import fields
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from brimful.domains.watering.demand import SMALL_RAIN_SHARE
from brimful.records import record

FloatArray: TypeAlias = NDArray[np.float64]
BoolArray: TypeAlias = NDArray[np.bool_]


@record
class Store:
    """What each container's mix holds, arrays of shape (containers,), litres above wilting."""

    capacity_l: FloatArray
    """Held when drained."""
    refill_l: FloatArray
    """Water again before it falls below this."""
    stress_l: FloatArray
    """Below this the plants draw less: Ks = S / stress level (FAO-56 eq. 84)."""
    dry_l: FloatArray
    """Below this the mix begins to shed water."""
    dry_capture: FloatArray
    """Share of a pulse an entirely dry mix still catches."""
    stands_for: FloatArray | None = None
    """How many containers alike each stands for in the sums of a zone; one each if None."""

    def __post_init__(self) -> None:
        """Refuse a store that cannot be."""
        parts = (getattr(self, part.name) for part in fields(self))
        shapes = {np.shape(part) for part in parts if part is not None}
        if len(shapes) != 1 or len(next(iter(shapes))) != 1:
            raise ValueError(f"the parts of a store have shapes {sorted(shapes)}: expected one (containers,)")
        order = (self.stress_l > 0.0) & (self.stress_l <= self.capacity_l) & (self.refill_l <= self.capacity_l)
        ranges = (self.refill_l >= 0.0) & (self.dry_l >= 0.0) & (self.dry_capture >= 0.0) & (self.dry_capture <= 1.0)
        if not bool(np.all(order & ranges)):
            raise ValueError(
                "a store's levels are out of order: expected 0 < stress ≤ capacity, 0 ≤ refill ≤ capacity, "
                "dry ≥ 0 and a dry capture of 0 to 1"
            )


@record
class Season:
    """The weather and the plants of every day."""

    et0_mm: FloatArray
    """(days, years) or, by container, (days, years, containers)."""
    litres_per_mm: FloatArray
    """(days, containers): demand of a container for each millimetre of ET0."""
    rain_mm: FloatArray
    """(days, years): rain that counts, see counted_rain_mm."""
    rain_litres_per_mm: FloatArray
    """(days, containers): what a millimetre of it brings to the mix."""
    hour_shares: FloatArray
    """(24,) or (days, 24): how the day's demand is spread over the hours."""
    rain_hour: int = 12

    def __post_init__(self) -> None:
        """Refuse parts that do not fit together."""
        days, years = self.rain_mm.shape
        containers = self.litres_per_mm.shape[1]
        fits = self.et0_mm.shape in {(days, years), (days, years, containers)}
        fits &= self.litres_per_mm.shape == self.rain_litres_per_mm.shape == (days, containers)
        fits &= self.hour_shares.shape in {(24,), (days, 24)} and 0 <= self.rain_hour < 24
        if not fits:
            raise ValueError(
                f"season has ET0 {self.et0_mm.shape}, rain {self.rain_mm.shape}, demand {self.litres_per_mm.shape}, "
                f"rain catch {self.rain_litres_per_mm.shape}, hours {self.hour_shares.shape}: expected (days, years), "
                "(days, years), (days, containers), (days, containers), (24,) or (days, 24)"
            )
        if not bool(np.allclose(self.hour_shares.sum(axis=-1), 1.0, atol=1e-9)):
            raise ValueError("hour_shares do not add up to 1 on every day: expected shares of the day's demand")


@record
class Balance:
    """Litres by period, year and container, each of shape (periods, years, containers)."""

    start_l: FloatArray
    applied_l: FloatArray
    rain_l: FloatArray
    wanted_l: FloatArray
    """Demand without stress."""
    used_l: FloatArray
    drained_l: FloatArray
    """Ran out because the mix was full."""
    shed_l: FloatArray
    """Ran past because the mix was dry."""
    lowest_l: FloatArray
    """Least water at any time of the period."""
    end_l: FloatArray

    def closure_l(self) -> FloatArray:
        """What the account lacks or has too much, litres: zero but for rounding."""
        gone = self.used_l + self.drained_l + self.shed_l
        result: FloatArray = self.start_l + self.applied_l + self.rain_l - gone - self.end_l
        return result


def counted_rain_mm(rain_mm: FloatArray, et0_mm: FloatArray) -> FloatArray:
    """Rain that counts: a day's rain below a fifth of its ET0 is taken as none.

    Formula: rain if rain ≥ 0.2 ET0, else 0.

    Args:
        rain_mm: daily rain [mm], any shape
        et0_mm: daily ET0 [mm], same shape
    Returns: [mm]
    Valid: 0 or more
    Source: FAO-56, p.170
    """
    result: FloatArray = np.where(rain_mm >= SMALL_RAIN_SHARE * et0_mm, rain_mm, 0.0)
    return result


def litres_per_mm(
    canopy_area_m2: FloatArray, coefficient: FloatArray, *, wetted_area_m2: FloatArray, evaporation_factor: float
) -> FloatArray:
    """Litres a container needs for each millimetre of ET0: the larger of canopy and wetted surface.

    Formula: max(K × canopy area, evaporation factor × wetted area).

    Args:
        canopy_area_m2: projected leaf area [m²], (days, containers) or anything that broadcasts
        coefficient: K, at most 2.5, see canopy_coefficient [-]
        wetted_area_m2: mix kept wet [m²]
        evaporation_factor: share of ET0 that bare wet mix loses [-]
    Returns: [L/mm], broadcast shape
    Valid: 0 or more
    Source: as demand_l_day
    """
    result: FloatArray = np.maximum(coefficient * canopy_area_m2, evaporation_factor * np.asarray(wetted_area_m2))
    return result


def daylight_shares(sunrise_h: FloatArray, sunset_h: FloatArray) -> FloatArray:
    """How a day's demand is spread over its hours: a half wave of the sine from sunrise to sunset.

    Formula: share of hour t = [cos π(t − r)/(s − r) − cos π(t + 1 − r)/(s − r)] / 2, clipped to daylight.

    Args:
        sunrise_h: clock hour of sunrise [h], (days,); nan for none
        sunset_h: clock hour of sunset [h], (days,); nan for none
    Returns: shares that add up to 1 [-], (days, 24)
    Valid: 0 ≤ sunrise < sunset ≤ 24; a day without sunrise or sunset is spread evenly
    Source: half-sine course of radiation, a simplification
    """
    rise, fall = (
        np.where(np.isnan(sunrise_h), 0.0, sunrise_h)[:, None],
        np.where(np.isnan(sunset_h), 24.0, sunset_h)[:, None],
    )
    if not bool(np.all((rise >= 0.0) & (rise < fall) & (fall <= 24.0))):
        raise ValueError("sunrise and sunset are not in one clock day: expected 0 ≤ sunrise < sunset ≤ 24")
    passed = np.clip((np.arange(25.0) - rise) / (fall - rise), 0.0, 1.0)
    waves: FloatArray = np.diff(-np.cos(np.pi * passed), axis=1) / 2.0
    even = (np.isnan(sunrise_h) | np.isnan(sunset_h))[:, None]
    return np.where(even, 1.0 / 24.0, waves)
