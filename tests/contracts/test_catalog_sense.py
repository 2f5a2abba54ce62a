"""Contracts between tables: what one row names stands in another, and the figures are such as the trade knows."""

import pytest

from brimful.catalog import ContainerType, Emitter, Tube, load
from brimful.domains.container import vessel
from brimful.domains.hydraulics.emitters import EMITTER_LAWS

CATALOG = load()


@pytest.mark.parametrize("row", CATALOG.containers.values(), ids=lambda row: row.key)
def test_containers_are_of_a_known_material(row: ContainerType) -> None:
    """A container's material is known and its wall within the usual range of that material."""
    material = CATALOG.materials[row.material]
    assert material.wall_low_m <= row.wall_m <= material.wall_high_m


@pytest.mark.parametrize("row", CATALOG.containers.values(), ids=lambda row: row.key)
def test_containers_hold_less_than_they_measure(row: ContainerType) -> None:
    """There is room for mix under 5 cm of headspace, less than the outside, and the shell weighs something."""
    pot = vessel(row.shape, row.sizes, wall_m=row.wall_m, base_m=row.base_m, floor_m=row.reservoir_m or 0.0)
    fill = pot.fill(0.05)
    assert 0.3 * pot.outside.volume_l() < fill.volume_l() < pot.outside.volume_l()
    assert pot.shell_volume_l > 0


@pytest.mark.parametrize("row", CATALOG.tubing.values(), ids=lambda row: row.key)
def test_tube_is_plastic_with_a_wall(row: Tube) -> None:
    """Plastic tube is 0.0015 mm rough (EPANET 2.2 manual, read) with a wall of 0.5 to 3 mm, and names its bore."""
    assert row.roughness_m == pytest.approx(1.5e-6)
    assert 0.0005 < (row.outer_diameter_m - row.inner_diameter_m) / 2 < 0.003


@pytest.mark.parametrize("row", CATALOG.emitters.values(), ids=lambda row: row.key)
def test_emitters_follow_a_known_law(row: Emitter) -> None:
    """An emitter's law is one that the hydraulics know, and its rated pressure lies within its range."""
    assert row.law in EMITTER_LAWS
    assert (row.start_m or 0) <= row.pressure_m <= row.most_m


@pytest.mark.parametrize(("key", "bore_in"), [("pe-half-0.600", 0.600), ("pe-half-0.622", 0.622)])
def test_bores_named_in_inches(key: str, bore_in: float) -> None:
    """The 1/2 in classes have the bores 0.600 in (read, drip design guide) and 0.622 in."""
    assert CATALOG.tubing[key].inner_diameter_m == pytest.approx(bore_in * 0.0254, abs=5e-5)


def test_every_water_use_has_a_factor() -> None:
    """Each plant's water-use class is a row of the plant factors, and they rise."""
    assert {plant.water_use for plant in CATALOG.plants.values()} <= set(CATALOG.plant_factors)
    factors = [CATALOG.plant_factors[key].factor for key in ("low", "moderate", "high")]
    assert factors == sorted(factors)


def test_the_plants() -> None:
    """There are 155 plants; 90 rest on memory alone, 12 have a field or two read, 53 name what was read."""
    sources = [plant.source for plant in CATALOG.plants.values()]
    counts = (
        sources.count("memory"),
        sum(s.startswith("memory (") for s in sources),
        sum(s.startswith("read:") for s in sources),
    )
    assert counts == (90, 12, 53)


def test_sixteen_emitters_for_a_quarter_of_an_hour() -> None:
    """16 emitters of 0.65 gph run 15 minutes give 2.6 gal and want 8 ft at 6 in (common practice, no source)."""
    dripline = CATALOG.driplines["quarter-6in-0.65gph"]
    assert 16 * dripline.flow_l_h * 0.25 / 3.785411784 == pytest.approx(2.6, abs=0.005)
    assert 16 * dripline.spacing_m / 0.3048 == pytest.approx(8, abs=0.005)
