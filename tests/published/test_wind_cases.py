"""A large container in a 20 m/s gust, cases A to C: calculated from statics by hand, no published worksheet."""

import pytest

from brimful.domains.handling.base_load import base_load
from brimful.domains.handling.exposure import DUST_CONTROLS, collector_cfm, heat_risk, noise_minutes
from brimful.domains.handling.wind import WindBody, tipping_speed_m_s, wind_pressure_pa, wind_standing

BODIES = (WindBody(1.0, 0.4597, 0.3175), WindBody(0.6, 0.8, 1.135))


@pytest.mark.parametrize(("speed", "pascal"), [(10, 61.3), (15, 137.8), (20, 245), (25, 383), (30, 551)])
def test_wind_pressure(speed: float, pascal: float) -> None:
    """Pressure of the wind from 10 to 30 m/s (calculated)."""
    assert wind_pressure_pa(speed) == pytest.approx(pascal, abs=0.5 if pascal > 200 else 0.05)


@pytest.mark.parametrize(
    ("mass", "holding", "safety", "friction", "stands"),
    [(300, 971.2, 5.74, 0.08, True), (121, 391.7, 2.31, 0.19, True), (70, 226.6, 1.34, 0.34, False)],
)
def test_cases_a_to_c(mass: float, holding: float, safety: float, friction: float, stands: bool) -> None:
    """Concrete stands, resin stands with drained mix, resin with dry mix fails 1.5 (calculated)."""
    standing = wind_standing(20, BODIES, mass_kg=mass, base_m=0.66)
    assert standing.force_n == pytest.approx(230.2, rel=0.005)
    assert standing.overturning_n_m == pytest.approx(169.2, rel=0.005)
    assert standing.resisting_n_m == pytest.approx(holding, rel=0.005)
    assert standing.safety == pytest.approx(safety, rel=0.005)
    assert standing.friction_needed == pytest.approx(friction, abs=0.005)
    assert standing.stands() is stands
    assert (tipping_speed_m_s(BODIES, mass_kg=mass, base_m=0.66) >= 20) is stands


def test_load_of_the_worked_container() -> None:
    """645 to 785 lb on a 26 in round base is 175 to 213 lb/ft² (calculated)."""
    area = 3.141592653589793 / 4 * (26 * 0.0254) ** 2
    loads = [base_load(pounds * 0.45359237, area).psf for pounds in (645, 785)]
    assert loads == pytest.approx((175, 213), abs=0.5)


@pytest.mark.parametrize(("level", "minutes"), [(85, 480), (90, 151), (95, 47.6), (100, 15.0), (105, 4.7)])
def test_noise_minutes(level: float, minutes: float) -> None:
    """NIOSH noise times; 100 dBA for 15 minutes read in engineering tables, the rest calculated."""
    assert noise_minutes(level) == pytest.approx(minutes, abs=0.5 if minutes > 100 else 0.05)


@pytest.mark.parametrize(
    ("index_f", "risk"),
    [(90, "lower"), (91, "moderate"), (103, "moderate"), (104, "high"), (115, "high"), (116, "very high")],
)
def test_heat_bands(index_f: float, risk: str) -> None:
    """Heat index bands: below 91, 91 to 103, 103 to 115, above 115 °F (OSHA heat index guide)."""
    assert heat_risk(index_f) == risk


def test_full_sun_adds_up_to_fifteen_degrees() -> None:
    """Full sun lifts 90 °F from lower to high (OSHA: up to 15 °F)."""
    assert heat_risk(90, full_sun=True) == "high"


def test_silica_table_rows() -> None:
    """Table 1 of 29 CFR 1926.1153: respirators per tool, read in a state copy and secondary texts."""
    rows = {row.tool: row for row in DUST_CONTROLS}
    wet = rows["hand-held power saw"]
    mortar = rows["grinder taking out mortar"]
    assert (wet.outdoors_to_4_h, wet.outdoors_longer, wet.indoors_to_4_h) == (0, 10, 10)
    assert (mortar.outdoors_to_4_h, mortar.outdoors_longer) == (10, 25)
    assert rows["standing masonry saw"].indoors_longer == 0
    assert rows["grinder, other work"].indoors_longer == 10
    assert collector_cfm(5) == 125
