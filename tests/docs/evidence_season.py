"""Rows of docs/evidence.md: watering, feeding, handling, wind."""

import numpy as np
from tests.docs.evidence_row import Row
from tests.docs.examples import design_of

from brimful.domains.feeding.coated import G_L_PER_LB_YD3, longevity_days, rate_for_months_g_l
from brimful.domains.feeding.conductivity import feed_ec_ms_cm
from brimful.domains.feeding.injector import Ratio, stock_g_l
from brimful.domains.feeding.soluble import (
    GALLON_L,
    OUNCE_G,
    feed_g_l,
    g_l_from_ounces,
    nitrogen_ppm,
    ounces_per_100_gallons,
)
from brimful.domains.handling.base_load import base_load
from brimful.domains.handling.exposure import noise_minutes
from brimful.domains.handling.lift_factors import US, Grip, pace_factor
from brimful.domains.handling.lifting import Hands, Lift, LiftLimit, lift_limit
from brimful.domains.handling.wind import WindBody, wind_pressure_pa, wind_standing
from brimful.domains.watering.coefficients import kcb_from_cover, narrow_strip_kc, thin_stand_reduction
from brimful.domains.watering.demand import canopy_coefficient, wetted_surface_l_day
from brimful.domains.watering.levels import depletion_share, total_available_mm
from brimful.domains.watering.run_time import minutes_per_day
from brimful.domains.watering.season import Season, Store
from brimful.domains.watering.store import run_store

INCH, POUND = 0.0254, 0.45359237
NIOSH = "NIOSH 94-110 (rev. 2021)"
CHART = "University of Massachusetts Extension, ratio chart 2011"
LABEL = "label chart of a 15-5-15 feed"
STATICS = "statics by hand"
TRADE = "common practice, no source"


def drying(day: int) -> float:
    """Depletion at the end of a day of FAO-56 example 37 [mm]."""
    level, at_once = np.array([96.0]), np.array([1.0] + [0.0] * 23)
    store = Store(np.array([160.0]), level, level, np.array([0.0]), np.array([1.0]))
    one = np.ones((10, 1))
    season = Season(6.0 * one, one, 0.0 * one, one, at_once)
    balance = run_store(store, season, [[]] * 10, start_l=np.array([[105.0]]), period_days=1)
    return float(160.0 - balance.end_l[day - 1, 0, 0])


def example_4() -> LiftLimit:
    """The package of NIOSH's example 4."""
    start, end = Hands(10 * INCH, 22 * INCH, 0), Hands(20 * INCH, 59 * INCH, 0)
    return lift_limit(Lift(26 * POUND, start, end, lifts_per_min=3, hours=1, grip=Grip.FAIR), constants=US)


def stock_ounces(ppm: float, percent: float, ratio: float) -> float:
    """Ounces in a gallon of stock."""
    return stock_g_l(feed_g_l(ppm, percent), ratio, Ratio.OF_FINAL) * GALLON_L / OUNCE_G


def emitters_of_one() -> int:
    """Emitters in the first container of the demo."""
    network = design_of("alder_point_landing").zones[0].network
    return sum(e.count for e in network.emitters if e.container == "water side 1")


def concrete_in_wind() -> float:
    """Overturning moment of the worked container at 20 m/s [N·m]."""
    bodies = (WindBody(1.0, 0.4597, 0.3175), WindBody(0.6, 0.8, 1.135))
    return wind_standing(20, bodies, mass_kg=300, base_m=0.66).overturning_n_m


ROWS = (
    Row("water available to onion in loamy sand, 0.4 m, mm", "FAO-56, example 36 (depth worked back)", "read", "36",
        lambda: total_available_mm(0.15, 0.06, 0.4), 0.5),
    *(Row(f"depletion on day {day} of drying, mm", "FAO-56, example 37, p.171", "read", printed,
          lambda day=day: drying(day), 0.051)  # type: ignore[misc]
      for day, printed in ((1, "61.0"), (5, "83.4"), (10, "104.5"))),
    Row("depletion share p 0.30 at 8 mm a day", "FAO-56, footnote of table 22 (formula read)", "calculated", "0.18",
        lambda: depletion_share(0.30, 8), 5e-3),
    Row("Kcb taken off for half cover instead of 0.85", "FAO-56, example 40", "read", "0.23",
        lambda: thin_stand_reduction(0.50, 0.85), 5e-3),
    Row("Kcb of cover 0.3", "FAO-56, example 41", "read", "0.75",
        lambda: kcb_from_cover(0.3, 0.41, 2.0, full_kcb=1.15), 5e-3),
    Row("Kc of a narrow strip 0.6 m tall and wide", "FAO-56, p.203 (formula read)", "calculated", "2.2",
        lambda: narrow_strip_kc(0.6, 0.6), 0.05),
    Row("most that a square metre of canopy draws, times ET0", "FAO-56, p.203", "read", "2.5",
        lambda: canopy_coefficient(1.4, 2.0), 0.0),
    Row("water off 0.0508 m² of bare wet mix, mL a day (factor set by this trial)",
        "Beeson 2010, HortScience 45:1260 (ET0 from memory)", "read", "160",
        lambda: 1000 * wetted_surface_l_day(4.5, 0.0508), 20.0),
    Row("minutes for 2.6 gal from 16 emitters of 0.65 gph", TRADE, "practice", "15",
        lambda: minutes_per_day(2.6, 16 * 0.65), 1e-9),
    Row("emitters on 8 ft of dripline, 6 in apart, demo plan", TRADE, "practice", "16", emitters_of_one, 0.0),
    Row("feed 20 % N, 200 ppm, oz in 100 gal", CHART, "read", "13.5",
        lambda: ounces_per_100_gallons(feed_g_l(200, 20)), 0.27),
    Row("feed 15 % N, 200 ppm, oz in 100 gal", CHART, "read", "18.0",
        lambda: ounces_per_100_gallons(feed_g_l(200, 15)), 0.36),
    Row("stock 1:100 of it, 100 ppm, oz in a gallon", LABEL, "read", "9.0", lambda: stock_ounces(100, 15, 100), 0.18),
    Row("stock 1:200 of 20 % N, 200 ppm, oz in a gallon", "grower trade article 2021", "read", "26.66",
        lambda: stock_ounces(200, 20, 200), 0.53),
    Row("1 oz of calcium nitrate in 100 gal, ppm N", "Texas A&M", "read", "11.25",
        lambda: nitrogen_ppm(g_l_from_ounces(1), 15), 0.225),
    Row("conductivity that 200 ppm adds, mS/cm", LABEL, "read", "1.48", lambda: feed_ec_ms_cm(0.0, 200, 0.74), 5e-3),
    Row("coated feed 19 % N for 6 months, lb/yd³", "nursery trade article", "read", "10.42",
        lambda: rate_for_months_g_l(0.33 * G_L_PER_LB_YD3, 6, 19) / G_L_PER_LB_YD3, 0.0104),
    Row("life at 30 °C of a coating rated 5.5 months at 21.1 °C, months", "Q10 of 2", "calculated", "2.97",
        lambda: longevity_days(5.5, 30, ratio=2.0), 5e-3),
    Row("weight one may lift from the start, example 4, lb", NIOSH, "read", "34.9",
        lambda: example_4().start_kg / POUND, 0.2),
    Row("the same at the end, lb", f"{NIOSH}, reach inferred", "read", "15.2", lambda: example_4().end_kg / POUND, 0.2),
    Row("lifting index there", NIOSH, "memory", "1.7", lambda: example_4().index, 0.05),
    Row("pace factor, 9 lifts a minute for 1 hour", f"{NIOSH}, table 5", "read", "0.52",
        lambda: pace_factor(9, 1, 0.8), 1e-9),
    Row("pressure of wind of 20 m/s, Pa", STATICS, "calculated", "245", lambda: wind_pressure_pa(20), 0.5),
    Row("overturning moment on a planted 31 × 25 in container at 20 m/s, N·m", STATICS, "calculated", "169.2",
        concrete_in_wind, 0.85),
    Row("load of 645 lb on a 26 in round base, lb/ft²", STATICS, "calculated", "175",
        lambda: base_load(645 * POUND, np.pi / 4 * (26 * INCH) ** 2).psf, 0.5),
    Row("minutes a day at 100 dBA", "NIOSH noise times, engineering tables", "read", "15.0",
        lambda: noise_minutes(100), 0.05),
)  # fmt: skip
