"""What the filter is told: the site, its days, the readings, and how sure each of them is."""

from dataclasses import field, fields
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from brimful.records import record

FloatArray: TypeAlias = NDArray[np.float64]
IntArray: TypeAlias = NDArray[np.int64]


@record
class Site:
    """The containers as designed, arrays of shape (containers,), litres above wilting."""

    capacity_l: FloatArray
    """Held when drained."""
    stress_l: FloatArray
    """Below this the plants draw less."""
    flow_l_h: FloatArray
    """Flow of all emitters of each container, as designed."""
    row: IntArray
    """Which row a container stands in: containers of one row are siblings."""
    zone: IntArray
    """Which zone waters it: one meter, one timer."""
    empty_kg: FloatArray
    """Weight of the planted container at wilting; nan where it is not known."""
    dry_l: FloatArray
    """Below this the mix begins to shed water; 0 for a mix that never does."""
    dry_capture: FloatArray
    """Share of a pulse an entirely dry mix still catches."""

    def __post_init__(self) -> None:
        """Refuse a site that cannot be."""
        shapes = {np.shape(getattr(self, part.name)) for part in fields(self)}
        if len(shapes) != 1 or len(next(iter(shapes))) != 1:
            raise ValueError(f"the parts of a site have shapes {sorted(shapes)}: expected one (containers,)")
        levels = (self.stress_l > 0.0) & (self.stress_l <= self.capacity_l) & (self.dry_l >= 0.0)
        if not bool(np.all(levels & (self.flow_l_h >= 0.0) & (self.dry_capture >= 0.0) & (self.dry_capture <= 1.0))):
            raise ValueError(
                "a site's levels are out of order: expected 0 < stress ≤ capacity, flow ≥ 0, dry ≥ 0 "
                "and a dry capture of 0 to 1"
            )


@record
class Days:
    """What the days bring if every container is as designed."""

    demand_l: FloatArray
    """(days, containers): demand without stress at demand factor 1."""
    minutes: FloatArray
    """(days, containers): minutes the timer runs the zone of each container."""
    rain_mm: FloatArray
    """(days,): rain that counts."""
    rain_litres_per_mm: FloatArray
    """(days, containers): what a millimetre of it brings to the mix."""
    morning_share: float = 1.0
    """Share of the minutes that run before the day's sun; the rest runs after it."""
    read_share: float = 0.3
    """Share of the day's demand that is past when a reading is taken."""

    def __post_init__(self) -> None:
        """Refuse parts that do not fit together."""
        shape = self.demand_l.shape
        fits = len(shape) == 2 and self.minutes.shape == self.rain_litres_per_mm.shape == shape
        fits = fits and self.rain_mm.shape == shape[:1] and min(self.morning_share, self.read_share) >= 0.0
        if not fits or max(self.morning_share, self.read_share) > 1.0:
            raise ValueError(
                f"days have demand {shape}, minutes {self.minutes.shape}, rain {self.rain_mm.shape} and "
                f"{self.rain_litres_per_mm.shape}, shares {self.morning_share} and {self.read_share}: expected "
                "(days, containers), the same, (days,), (days, containers) and shares of 0 to 1"
            )


@record
class Reading:
    """One thing somebody read, felt or did."""

    day: int
    """Day of the season, 0 the first."""
    container: int
    """Index of the container; of any container of the zone for what regards a zone."""
    kind: str
    """Key of KINDS."""
    value: float
    """In the unit of its kind; a finger test is DRY, MOIST or WET."""
    minutes: float = 0.0
    """How long a catch test ran."""


@record
class ReadingErrors:
    """How far readings stray (common practice, no source)."""

    finger_dry: float = 0.40
    """Share of the store at which a finger is of two minds between dry and moist."""
    finger_wet: float = 0.80
    """The same between moist and wet."""
    finger_soft: float = 0.045
    """Width of being of two minds."""
    finger_hand: float = 0.05
    """How far one hand's idea of dry and wet lies from another's, standard deviation, share of the store."""
    finger_wrong: float = 0.10
    """Share of finger tests that tell nothing."""
    probe: float = 0.10
    """Standard deviation, share of the store."""
    weight_kg: float = 0.4
    catch: float = 0.08
    """Standard deviation, share of the volume."""
    meter: float = 0.02
    """Standard deviation, share of the volume."""
    wrong: float = 0.03
    """Share of instrument readings that tell nothing."""


@record
class Settings:
    """What is believed before the first reading (standard deviations of logarithms; common practice, no source)."""

    row_demand: float = 0.20
    """How far the demand of a whole row strays from the plan."""
    own_demand: float = 0.15
    """How far a container strays from its row."""
    row_supply: float = 0.06
    own_supply: float = 0.06
    row_doubt: float = 0.16
    """How far all containers of a row may be misjudged alike, however many readings: hands, weather, the balance."""
    memory_days: float = 90.0
    """Days in which a factor wanders off its old value."""
    day_noise: float = 0.15
    """How far one day's demand strays, a share of it."""
    start_share: float = 0.85
    """Store on the first morning, a share of what the mix holds."""
    start_spread: float = 0.15
    recovery_day: float = 0.005
    """Chance a day that a fault is mended and nobody writes it down."""
    errors: ReadingErrors = field(default_factory=ReadingErrors)
    particles: int = 128
    """Particles for each container and each cause."""

    def __post_init__(self) -> None:
        """Refuse what no filter can start from."""
        spreads = (self.row_demand, self.own_demand, self.row_supply, self.own_supply, self.day_noise)
        if min(*spreads, self.start_spread) < 0.0 or self.memory_days <= 0.0 or self.particles < 8:
            raise ValueError(f"{self}: expected spreads of 0 or more, memory above 0 days, 8 particles or more")
