"""A plan with nothing left open: what the stages of the design take in."""

from brimful.catalog import Material, Microclimate, Mix, Plant, RootBall
from brimful.domains.container import Vessel
from brimful.domains.hydraulics.assembly import Assembly
from brimful.domains.hydraulics.inlet import Inlet
from brimful.domains.hydraulics.pipe import Water
from brimful.domains.hydraulics.zone import Zone
from brimful.plan.names import container_names
from brimful.records import record


@record
class PlantSpec:
    """So many plants of one taxon, bought in one trade size; where the plan names their colour the plant has only
    that."""

    plant: Plant
    count: int
    root_ball: RootBall
    colour: str | None = None


@record
class RecipeSpec:
    """How the plan wants a row planted: seen from where, the taxon at the front and the way the front faces, how full
    at once; the recipe as written, the mouth [m²] it was written for, and why it was changed for this container."""

    view: str = "all-round"
    front: str | None = None
    faces_deg: float | None = None
    density: str = "grow-in"
    written: tuple[PlantSpec, ...] = ()
    written_area_m2: float = 0.0
    reasons: tuple[str, ...] = ()


@record
class Delivery:
    """How water gets into one container, and what the parts are called when bought."""

    assembly: Assembly
    emission_key: str
    emission: str
    emission_length_m: float | None
    feeder: str
    feeder_length_m: float
    variation: float


@record
class RowSpec:
    """A row of equal containers; each figure is of one container."""

    index: int
    name: str
    zone: str
    count: int
    container: str
    vessel: Vessel
    material: Material
    weight_kg: float | None
    headspace_m: float
    mix: Mix
    plants: tuple[PlantSpec, ...]
    microclimate: Microclimate
    delivery: Delivery
    leaves_main_at_m: float | None
    stations_m: tuple[float, ...]
    elevations_m: tuple[float, ...]
    recipe: RecipeSpec

    @property
    def ids(self) -> tuple[str, ...]:
        """The names of the containers: the row's own for a single one, else with a number from the water's end."""
        return container_names(self.name, self.count)


@record
class ZoneSpec:
    """A zone ready to be solved, and the names of its parts when bought."""

    index: int
    name: str
    rows: tuple[str, ...]
    zone: Zone
    inlet: Inlet
    regulator: str
    main: str
    main_length_m: float
    lateral: str


@record
class Season:
    """Planting day and season's end, as days of the leap year 1 … 366."""

    planting_day: int
    season_end: int


@record
class TimerSpec:
    """What the timer can do."""

    step_minutes: int
    most_starts: int
    longest_minutes: float


@record
class Settled:
    """The whole plan, settled."""

    rows: tuple[RowSpec, ...]
    zones: tuple[ZoneSpec, ...]
    season: Season
    timer: TimerSpec
    usable_share: float
    water: Water
    supply_tested: bool
