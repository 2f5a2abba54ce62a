"""What is known of each day and of the place, and what was put in where something was missing."""

from dataclasses import fields

import numpy as np
from numpy.typing import NDArray

from brimful.domains.climate.values import FloatArray
from brimful.records import record

DayNumbers = NDArray[np.integer]


@record
class DailyRecord:
    """The days of a record, one value a day; an absent array or a NaN means not known. All arrays have one shape."""

    day_of_year: DayNumbers
    tmax_c: FloatArray
    tmin_c: FloatArray
    vapour_kpa: FloatArray | None = None
    dew_c: FloatArray | None = None
    rh_max_pct: FloatArray | None = None
    rh_min_pct: FloatArray | None = None
    rh_mean_pct: FloatArray | None = None
    radiation_mj_m2: FloatArray | None = None
    sunshine_h: FloatArray | None = None
    wind_m_s: FloatArray | None = None

    def __post_init__(self) -> None:
        shape = np.shape(self.tmax_c)
        for name, values in self.known().items():
            if np.shape(values) != shape:
                raise ValueError(f"{name} of shape {np.shape(values)} was given; expected the shape of tmax_c, {shape}")
        days = np.asarray(self.day_of_year)
        if days.dtype.kind not in "iu" or (days.size and not (days.min() >= 1 and days.max() <= 366)):
            raise ValueError("day_of_year was given with values outside 1 to 366, or not whole; expected whole numbers")

    def known(self) -> dict[str, NDArray[np.generic]]:
        """The arrays that are present, by name."""
        pairs = ((field.name, getattr(self, field.name)) for field in fields(self))
        return {name: values for name, values in pairs if values is not None}


@record
class Place:
    """Where the record was taken; `dew_below_tmin_c` is 2 to 3 at arid places without humidity (FAO-56 p.58)."""

    latitude_deg: float
    elevation_m: float = 0.0
    wind_height_m: float = 2.0
    coastal: bool = False
    dew_below_tmin_c: float = 0.0


@record
class Fill:
    """On so many days this variable came by this rule; `measured` tells a reading from an estimate."""

    variable: str
    rule: str
    days_count: int
    measured: bool
