"""The containers that tell how a zone fares: of each row the one short of water first, and the one that drains most."""

from collections import Counter

import numpy as np
from numpy.typing import NDArray

from brimful.catalog import Catalog
from brimful.design.ledger import Ledger
from brimful.design.model import ContainerWater, RowWorked, ZoneWorked
from brimful.design.season.years import Years
from brimful.design.settle import RowSpec
from brimful.domains.substrate import container_store
from brimful.domains.watering.demand import BARE_MIX_FACTOR, FULL_CANOPY_INTERCEPTION, canopy_coefficient
from brimful.domains.watering.season import Season, Store, counted_rain_mm, litres_per_mm
from brimful.domains.watering.settings import Wanted
from brimful.records import record

FloatArray = NDArray[np.float64]
DRY_CAPTURE = 0.5
"""Share of a pulse that an entirely dry peat mix still catches: 20 to 50 % runs down the gap (common practice, no
source)."""


@record
class Inputs:
    """What every zone of the site is judged by."""

    years: Years
    hours: FloatArray
    wanted: Wanted
    leaching: float
    catalog: Catalog
    light: dict[str, FloatArray]  # by row: ET0 there over ET0 in the open, (days, containers)
    canopy_m2: dict[str, FloatArray]  # by row: ground under leaves on each day, (days,)
    money_per_l: float | None
    ledger: Ledger


@record
class Telling:
    """One container of a row, with its water, and its light and leaves by day."""

    row: RowWorked
    spec: RowSpec
    water: ContainerWater
    light: FloatArray
    canopy_m2: FloatArray
    plant_factor: float

    @property
    def ease(self) -> float:
        """Flow for each share of full light: least where water runs short first, most where it drains most."""
        return self.water.flow_l_h / max(float(self.light.mean()), 1e-9)


def telling_of(zone: ZoneWorked, rows: dict[str, tuple[RowWorked, RowSpec]], inputs: Inputs) -> list[Telling]:
    """Of each row of a zone the container with the least and the one with the most water for its light."""
    found: list[Telling] = []
    every = every_one_of(zone, rows, inputs)
    for name in dict.fromkeys(one.row.name for one in every):
        mine = [one for one in every if one.row.name == name]
        ends = (min(mine, key=lambda one: one.ease), max(mine, key=lambda one: one.ease))
        found.extend(ends if ends[0] is not ends[1] else ends[:1])
    return found


def every_one_of(zone: ZoneWorked, rows: dict[str, tuple[RowWorked, RowSpec]], inputs: Inputs) -> list[Telling]:
    """Every container of a zone with its water and light."""
    found: list[Telling] = []
    for name in dict.fromkeys(c.row for c in zone.containers):
        row, spec = rows[name]
        light, at = inputs.light[name].T, {container: i for i, container in enumerate(spec.ids)}
        thirstiest = (inputs.catalog.plant_factors[one.plant.water_use].factor for one in spec.plants)
        factor = max(thirstiest, default=0.0)
        leaves = inputs.canopy_m2[name]
        mine = [c for c in zone.containers if c.row == name]
        found += [Telling(row, spec, c, light[at[c.container]], leaves, factor) for c in mine]
    return found


def store_of(telling: list[Telling]) -> Store:
    """Levels above wilting: refill where the easy water ends, stress where the reserve ends."""
    by_row = {one.row.name: one.spec for one in telling}
    levels = {name: _levels_l(spec) for name, spec in by_row.items()}
    capacity, refill, stress_l = np.array([levels[one.row.name] for one in telling]).T.copy()
    tell = Counter(one.row.name for one in telling)
    stands_for = np.array([one.row.count / tell[one.row.name] for one in telling])
    return Store(capacity, refill, stress_l, stress_l, np.full(capacity.size, DRY_CAPTURE), stands_for)


def _levels_l(spec: RowSpec) -> tuple[float, float, float]:
    """Capacity, refill and stress level of one container of a row; all of them are alike."""
    room = spec.vessel.fill(spec.headspace_m)
    held = container_store(spec.mix.retention, room.area_m2, room.depth_m, breaks_m=room.breaks_m)
    stress = held.beyond_stress_l
    return stress + held.reserve_l + held.easily_available_l, stress + held.reserve_l, stress


def season_of(telling: list[Telling], years: Years, hours: FloatArray) -> Season:
    """Demand and rain of the telling containers on every day of every year."""
    demand, caught, et0 = [], [], []
    for one in telling:
        mouth, canopy = one.row.mouth_area_m2, one.canopy_m2
        wetted, factor = np.array(mouth), np.array(canopy_coefficient(one.plant_factor, one.spec.microclimate.factor))
        demand.append(litres_per_mm(canopy, factor, wetted_area_m2=wetted, evaporation_factor=BARE_MIX_FACTOR))
        caught.append(mouth * (1 - FULL_CANOPY_INTERCEPTION * np.minimum(canopy / mouth, 1.0)))
        et0.append(years.et0_mm * one.light[:, None])
    return Season(
        np.ascontiguousarray(np.stack(et0, axis=-1)),
        np.ascontiguousarray(np.stack(demand, axis=1)),
        counted_rain_mm(years.rain_mm, years.et0_mm),
        np.ascontiguousarray(np.stack(caught, axis=1)),
        hours,
    )
