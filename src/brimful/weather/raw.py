"""Days as a file has them, before they are put in order."""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from brimful.records import record
from brimful.weather.record import Dates, FloatArray, WeatherNote


@record
class RawDays:
    """Rows as read, in the record's units: dates (NaT where there is none), one array per field, and their lines."""

    dates: Dates
    values: Mapping[str, FloatArray]
    lines: NDArray[np.integer]
    notes: tuple[WeatherNote, ...] = ()
    wind_height_m: float | None = None
    latitude_deg: float | None = None
    elevation_m: float | None = None
