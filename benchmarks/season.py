"""Speed of weather, sun and store against general libraries and plain loops, in one run, same answers.

    python3 run.py bench season [--json]

Every figure is the best of several runs, in milliseconds for the whole case. The last columns are the ratio of the
times and the largest difference of the answers, in the unit named. Ratios within one run count, not milliseconds.
"""

import os
import time
from collections.abc import Callable, Iterator
from datetime import date
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np
import pandas as pd
import pvlib
import pyet
import refet
from telling import tell

from brimful.domains.climate.daily import reference_et_of_days
from brimful.domains.climate.horizon import Block, Wall, sky_view
from brimful.domains.climate.radiation import extraterrestrial_radiation
from brimful.domains.climate.record import DailyRecord
from brimful.domains.climate.record import Place as Station
from brimful.domains.climate.shade import direct_sun, sun_path
from brimful.domains.climate.sun import SunPlace, days_since_2000, sun_grid
from brimful.domains.watering.season import Balance, Season, Store, daylight_shares
from brimful.domains.watering.store import run_store

YEARS, DAYS = 30, 184
PLACE = SunPlace(39.7392, -104.9903, -7.0)
Row = dict[str, Any]


def best(work: Callable[[], Any], runs: int) -> float:
    """Least time of several runs [ms]."""
    least = float("inf")
    for _ in range(runs):
        start = time.perf_counter()
        work()
        least = min(least, time.perf_counter() - start)
    return 1e3 * least


def row(case: str, ours_ms: float, peer: str, peer_ms: float, difference: tuple[float, str]) -> Row:
    """One line of the table."""
    return {
        "case": case,
        "ours_ms": ours_ms,
        "peer": peer,
        "peer_ms": peer_ms,
        "ratio": peer_ms / ours_ms,
        "largest_difference": difference[0],
        "difference_unit": difference[1],
    }


def make_season(containers: int) -> tuple[Store, Season, list[list[tuple[int, Any]]]]:
    """Invented weather-years, containers of 5 to 20 L of usable water, two starts a day, a mix that sheds when dry."""
    draw = np.random.default_rng(0)
    capacity = draw.uniform(5, 20, containers)
    store = Store(capacity, 0.6 * capacity, 0.4 * capacity, 0.3 * capacity, np.full(containers, 0.6))
    thirst = np.repeat(draw.uniform(0.3, 0.9, containers)[None], DAYS, axis=0)
    hours = daylight_shares(np.full(DAYS, 5.2), np.full(DAYS, 20.1))
    rain = draw.gamma(0.3, 5.0, (DAYS, YEARS))
    season = Season(draw.uniform(2, 8, (DAYS, YEARS)), thirst, rain, np.full_like(thirst, 0.2), hours)
    litres = np.full(containers, 1.5)
    return store, season, [[(5, litres), (13, litres)]] * DAYS


def plain_loop(store: Store, season: Season, pulses: list[list[tuple[int, Any]]], year: int, pot: int) -> list[float]:
    """The same store for one container and one year in plain Python: start, given, used, run out, end."""
    capacity, stress = float(store.capacity_l[pot]), float(store.stress_l[pot])
    dry, least = float(store.dry_l[pot]), float(store.dry_capture[pot])
    shares, rain_hour = season.hour_shares.tolist(), season.rain_hour
    demand_l = (season.et0_mm[:, year] * season.litres_per_mm[:, pot]).tolist()
    rain_l = (season.rain_mm[:, year] * season.rain_litres_per_mm[:, pot]).tolist()
    starts = [{hour: float(litres[pot]) for hour, litres in day} for day in pulses]
    water, given, used, gone = capacity, 0.0, 0.0, 0.0
    for day in range(DAYS):
        for hour in range(24):
            gift = starts[day].get(hour, 0.0) + (rain_l[day] if hour == rain_hour else 0.0)
            if gift:
                caught = gift * (least + (1.0 - least) * min(1.0, water / dry))
                over = max(water + caught - capacity, 0.0)
                given, gone, water = given + gift, gone + gift - caught + over, water + caught - over
            draw = demand_l[day] * shares[day][hour] * min(1.0, water / stress)
            water, used = water - draw, used + draw
    return [capacity, given, used, gone, water]


def store_rows() -> Iterator[Row]:
    """Thirty seasons by the hour; the plain loop is timed on four container-years and scaled."""
    for containers in (100, 1000):
        store, season, pulses = make_season(containers)
        ours = best(lambda: run_store(store, season, pulses), 5 if containers == 100 else 3)  # noqa: B023
        sample = [(0, 0), (7, 11), (19, 42), (29, 99)]
        loop = best(lambda: [plain_loop(store, season, pulses, *which) for which in sample], 3)  # noqa: B023
        balance = run_store(store, season, pulses, period_days=DAYS)
        off = max(abs(plain_loop(store, season, pulses, y, c)[-1] - balance.end_l[0, y, c]) for y, c in sample)
        hours = containers * YEARS * DAYS * 24
        size = f"{hours / 1e6:.1f} M hours, {1e6 * ours / hours:.1f} ns each"
        name = f"store, {containers} containers × {YEARS} seasons hourly ({size})"
        peer = loop * containers * YEARS / len(sample)
        yield row(name, ours, "plain Python loop (scaled)", peer, (off, "L"))
        yield row("the same: what its account lacks", ours, "conservation", ours, (closure(balance), "of the water"))


def closure(balance: Balance) -> float:
    """What the account lacks, relative to the water that went through."""
    through = balance.start_l + balance.applied_l + balance.rain_l
    return float(np.abs(balance.closure_l() / through).max())


def evaporation_rows() -> Iterator[Row]:
    """A hundred station-years of daily ET0 with radiation, vapour and wind known."""
    draw = np.random.default_rng(1)
    day = np.tile(np.arange(1, 366), 100)
    tmax = 20.0 + 10.0 * np.sin(2 * np.pi * (day - 100) / 365) + draw.normal(0, 4, day.size)
    tmin = tmax - draw.uniform(6, 16, day.size)
    vapour = 0.6108 * np.exp(17.27 * tmin / (tmin + 237.3)) * draw.uniform(0.6, 0.95, day.size)
    above = np.asarray(extraterrestrial_radiation(39.4575, day))
    light, wind = above * draw.uniform(0.3, 0.72, day.size), draw.uniform(0.7, 5, day.size)
    record = DailyRecord(day, tmax, tmin, vapour_kpa=vapour, radiation_mj_m2=light, wind_m_s=wind)
    station = Station(39.4575, 1208.5)
    ours, mine = best(lambda: reference_et_of_days(record, station), 7), reference_et_of_days(record, station).et0_mm

    def by_refet() -> Any:
        return refet.Daily(tmin, tmax, light, wind, 2.0, 1208.5, 39.4575, day, ea=vapour, method="asce").eto()

    off = float(np.abs(np.asarray(by_refet()) - mine).max())
    yield row("ET0, 100 station-years daily", ours, "refet", best(by_refet, 5), (off, "mm"))
    index = pd.date_range("2015-01-01", periods=365)
    parts = [pd.Series(values[:365], index) for values in ((tmax + tmin) / 2, wind, light, tmax, tmin, vapour)]

    def by_pyet() -> Any:
        mean, u2, rs, top, low, ea = parts
        return pyet.pm_fao56(mean, u2, rs=rs, tmax=top, tmin=low, ea=ea, elevation=1208.5, lat=np.radians(39.4575))

    off = float(np.abs(by_pyet().to_numpy() - mine[:365]).max())
    yield row("ET0, 100 station-years daily", ours, "pyet, one station-year × 100", 100 * best(by_pyet, 3), (off, "mm"))


def sun_rows() -> Iterator[Row]:
    """The sun's position through a year, and the hours it shines on a hundred containers."""
    days = np.arange(366) + days_since_2000(date(2024, 1, 1))
    times = pd.date_range("2024-01-01 00:05", periods=366 * 144, freq="10min", tz="Etc/GMT+7")

    def by_spa() -> Any:
        return pvlib.solarposition.spa_python(times, PLACE.latitude_deg, PLACE.longitude_deg, delta_t=69.2)

    ours, peer = best(lambda: sun_grid(days, PLACE, 10), 9), best(by_spa, 3)
    grid, spa = sun_grid(days, PLACE, 10), by_spa()
    off = float(np.abs(grid.elevation_deg.ravel() - spa.elevation.to_numpy()).max())
    yield row(
        f"sun, {times.size} positions ({1e6 * ours / times.size:.0f} ns each)", ours, "pvlib SPA", peer, (off, "°")
    )

    draw = np.random.default_rng(2)
    pots = np.column_stack([draw.uniform(-20, 20, (100, 2)), np.full(100, 0.6)])
    things = [
        Block(((-30.0, 25.0), (30.0, 25.0), (30.0, 35.0), (-30.0, 35.0)), 8.0),
        Wall((25.0, -20.0), (25.0, 20.0), 2.0),
    ]
    view = sky_view(things, pots)
    profile = np.concatenate([view.edges_deg[:, :, 0], view.edges_deg[:, :1, 0]], axis=1)
    months = times.month.to_numpy()

    def with_pvlib() -> Any:
        sun = by_spa()
        azimuth, elevation = sun.azimuth.to_numpy(), sun.apparent_elevation.to_numpy()
        lit = [elevation > np.interp(azimuth, np.arange(361.0), one) for one in profile]
        return np.array([np.bincount(months, weights=one, minlength=13)[1:] / 6.0 for one in lit])

    ours, peer = best(lambda: direct_sun(sun_path(PLACE, 2024), view), 9), best(with_pvlib, 3)
    mine = direct_sun(sun_path(PLACE, 2024), view).hours
    off = float(np.abs(with_pvlib() / np.array([31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]) - mine).max())
    name = "sun hours by month, 100 containers × a year at 10 min"
    yield row(name, ours, "pvlib SPA and horizon profiles", peer, (off, "h a day"))
    path = sun_path(PLACE, 2024)
    yield row(name + ", site's sun known", best(lambda: direct_sun(path, view), 9), "the same", peer, (off, "h a day"))


def main() -> None:
    """Print the table, or the list."""
    rows = [*store_rows(), *evaporation_rows(), *sun_rows()]
    peer = {"ours, ms": "{ours_ms:.3g}", "peer": "{peer}", "peer, ms": "{peer_ms:.3g}", "times as fast": "{ratio:.1f}"}
    tell(rows, {"case": "{case}"} | peer | {"largest difference": "{largest_difference:.1e} {difference_unit}"})


if __name__ == "__main__":
    main()
