"""Reference evapotranspiration of a weather record: the bridge from files to the sums of domains/climate."""

from brimful.domains.climate.daily import ReferenceEt, reference_et_of_days
from brimful.domains.climate.record import DailyRecord, Place
from brimful.errors import WeatherError
from brimful.weather.record import DailyWeather


def reference_et(weather: DailyWeather, *, coastal: bool = False, dew_below_tmin_c: float = 0.0) -> ReferenceEt:
    """ET0 of each day of the record in mm, its inputs, and which rule gave what.

    Raises:
        WeatherError: neither the file nor the plan says the latitude
    """
    if weather.latitude_deg is None:
        raise WeatherError(
            f"{weather.source}: no latitude was given; expected one in the plan or the file. Set latitude."
        )
    record = DailyRecord(
        weather.day_of_year,
        weather.tmax_c,
        weather.tmin_c,
        dew_c=weather.dew_c,
        rh_max_pct=weather.rh_max_pct,
        rh_min_pct=weather.rh_min_pct,
        rh_mean_pct=weather.rh_mean_pct,
        radiation_mj_m2=weather.radiation_mj_m2,
        sunshine_h=weather.sunshine_h,
        wind_m_s=weather.wind_m_s,
    )
    elevation = weather.elevation_m or 0.0
    place = Place(weather.latitude_deg, elevation, weather.wind_height_m, coastal, dew_below_tmin_c)
    return reference_et_of_days(record, place)
