"""One shape for all daily weather, whatever file it came from."""

from dataclasses import fields

import numpy as np
from numpy.typing import NDArray

from brimful.records import record

FloatArray = NDArray[np.float64]
Dates = NDArray[np.datetime64]

SERVICE_WIND_HEIGHT_M = 10.0  # height of weather services' masts, WMO guide (memory)


@record
class WeatherNote:
    """One thing to know about a weather file: a stable code, what is so, and the line (0: the file as a whole)."""

    code: str
    message: str
    line: int = 0


@record
class DailyWeather:
    """Unbroken days with highest and lowest temperature, and whatever else is known; NaN means not known.

    `et0_mm` is what the source itself states, kept for comparison and never used.
    """

    source: str
    dates: Dates
    tmax_c: FloatArray
    tmin_c: FloatArray
    dew_c: FloatArray | None = None
    rh_max_pct: FloatArray | None = None
    rh_min_pct: FloatArray | None = None
    rh_mean_pct: FloatArray | None = None
    radiation_mj_m2: FloatArray | None = None
    sunshine_h: FloatArray | None = None
    wind_m_s: FloatArray | None = None
    rain_mm: FloatArray | None = None
    et0_mm: FloatArray | None = None
    wind_height_m: float = SERVICE_WIND_HEIGHT_M
    latitude_deg: float | None = None
    elevation_m: float | None = None
    notes: tuple[WeatherNote, ...] = ()

    def __post_init__(self) -> None:
        for field in fields(self):
            values = getattr(self, field.name)
            if isinstance(values, np.ndarray):
                values.flags.writeable = False

    @property
    def days_count(self) -> int:
        """How many days the record has."""
        return len(self.dates)

    @property
    def years(self) -> NDArray[np.int64]:
        """The calendar year of each day."""
        return self.dates.astype("datetime64[Y]").astype(np.int64) + 1970

    @property
    def months(self) -> NDArray[np.int64]:
        """The month of each day, January = 1."""
        return self.dates.astype("datetime64[M]").astype(np.int64) % 12 + 1

    @property
    def day_of_year(self) -> NDArray[np.int64]:
        """The day of the year of each day, 1 January = 1."""
        return day_of_year(self.dates)


def day_of_year(dates: Dates) -> NDArray[np.int64]:
    """The day of the year of each date, 1 January = 1."""
    number: NDArray[np.int64] = (dates - dates.astype("datetime64[Y]").astype("datetime64[D]")).astype(np.int64) + 1
    return number
