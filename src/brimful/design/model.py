"""The Design: everything worked out, frozen. Keys carry their unit; `brimful design --json` prints these names."""

from dataclasses import field
from typing import Literal

from brimful.findings import Finding
from brimful.records import record

Occasion = Literal["planting_day", "mid_season", "peak"]
OCCASIONS: tuple[Occasion, ...] = ("planting_day", "mid_season", "peak")


@record
class Assumption:
    """Something the plan is silent about: what was taken instead, from where, and the field that would change it."""

    field: str
    what: str
    value: str
    source: str


@record
class OccasionClimate:
    """Reference evapotranspiration on one occasion, how it was taken from the weather, and for how many days the plants
    have grown by then."""

    occasion: Occasion
    et0_mm_day: float
    taken_as: str
    days_grown_count: int


UNNAMED = "unnamed place"
"""What a place is called that the plan does not name; it is not printed."""
NO_WEATHER = "none"
"""The weather of a plan that names none."""


@record
class SiteWorked:
    """The place and its demand for water."""

    place: str
    latitude_deg: float | None
    elevation_m: float
    weather: str
    weather_days_count: int
    filled: tuple[str, ...]
    occasions: tuple[OccasionClimate, ...]


@record
class ContainerDemand:
    """What one container of a row wants on one occasion."""

    occasion: Occasion
    canopy_area_m2: float
    canopy_demand_l_day: float
    wetted_surface_l_day: float
    demand_l_day: float


@record
class PlantedTaxon:
    """So many plants of one taxon in each container."""

    plant: str
    name: str
    count: int
    water_use: str
    root_ball_l: float


@record
class PlaceWorked:
    """One plant of a container from above: x to the right, y to the back, from the middle of the mouth; the way from
    its stem to the rim, and its root ball."""

    plant: str
    role: str
    x_m: float
    y_m: float
    to_rim_m: float
    ball_width_m: float
    ball_depth_m: float


@record
class GrownWorked:
    """How wide and high one taxon is so many weeks after planting, before it is cut back at the rim."""

    plant: str
    week: int
    width_m: float
    height_m: float


@record
class TubeWorked:
    """How dripline lies in one container: loops from the middle out, each by half its width the narrow way, pieces to
    cut, each emitter's place from the middle, and root balls that no emitter reaches. The piece begins at the front
    of the outermost loop; the innermost need not close. `clear` where no loop touches a root ball."""

    loop_radii_m: tuple[float, ...]
    dripline_cut_m: float
    feeder_cut_m: float
    emitters_x_m: tuple[float, ...]
    emitters_y_m: tuple[float, ...]
    staples_count: int
    end_plugs_count: int
    dry: tuple[str, ...]
    clear: bool


@record
class EmittersWorked:
    """Where single emitters stand in one container, from the middle, and root balls that none reaches. `clear` where no
    emitter stands on a root ball."""

    emitters_x_m: tuple[float, ...]
    emitters_y_m: tuple[float, ...]
    dry: tuple[str, ...]
    clear: bool


@record
class RowWorked:
    """One row of equal containers: geometry, mix, water store and demand, each figure for one container."""

    name: str
    zone: str
    count: int
    container: str
    mouth_area_m2: float
    inside_depth_m: float
    fill_depth_m: float
    fill_volume_l: float
    mix: str
    mix_to_buy_l: float
    weight_empty_kg: float
    weight_dry_kg: float
    weight_drained_kg: float
    weight_saturated_kg: float
    water_held_l: float
    air_share: float
    easily_available_l: float
    reserve_l: float
    plants: tuple[PlantedTaxon, ...]
    demands: tuple[ContainerDemand, ...]
    places: tuple[PlaceWorked, ...] = ()
    growth: tuple[GrownWorked, ...] = ()
    tube: TubeWorked | None = None
    emitters: EmittersWorked | None = None


@record
class NetworkNode:
    """A node of the solved network."""

    id: str
    elevation_m: float
    head_m: float


@record
class NetworkLink:
    """A link of the solved network; heads stand with the nodes. Flow is positive from `from` to `to`."""

    id: str
    start: str = field(metadata={"json": "from"})
    end: str = field(metadata={"json": "to"})
    length_m: float
    inner_diameter_m: float
    roughness_m: float
    loss_k: float
    flow_l_h: float


@record
class NetworkEmitter:
    """An outlet: flow = coefficient × head^exponent in L/h and m of water, between its limits where it compensates."""

    node: str
    container: str
    coefficient_l_h: float
    exponent: float
    compensating: bool
    start_head_m: float | None
    count: int
    flow_l_h: float


@record
class NetworkSource:
    """Where the water enters: head downstream of the regulator."""

    node: str
    head_m: float


@record
class NetworkWorked:
    """The solved network of a zone, whole, so that anyone can solve it again with another engine."""

    nodes: tuple[NetworkNode, ...]
    links: tuple[NetworkLink, ...]
    emitters: tuple[NetworkEmitter, ...]
    source: NetworkSource
    viscosity_m2_s: float


@record
class ContainerWater:
    """The water one container gets; low and high where friction in its feeder is uncertain (Re 2000 to 4000)."""

    container: str
    row: str
    flow_l_h: float
    head_m: float
    share_of_mean: float
    flow_low_l_h: float | None = None
    flow_high_l_h: float | None = None


@record
class HeadStep:
    """One step of the pressure budget: where each metre of head went between tap and last emitter."""

    where: str
    head_lost_m: float
    head_left_m: float


@record
class RowShare:
    """What one container of a row gets at a run time against what it should get; `share` above 1 drains away."""

    row: str
    gets_l_day: float
    should_get_l_day: float
    share: float


@record
class RunTimeWorked:
    """How long to run a zone on one occasion, and what sets it."""

    occasion: Occasion
    minutes_per_start: int
    starts_per_day_count: int
    minutes_per_day: int
    container: str
    set_by: str
    overfill_l: float
    short_l_day: float
    zone_l_day: float
    rows: tuple[RowShare, ...]


@record
class ChoiceWorked:
    """A way to fill what the plan leaves open in a zone; rank 1 is taken. Cost counts only what differs."""

    rank: int
    emission: str
    lateral: str
    main: str
    feeder: str
    regulator_head_m: float | None
    cost_money: float
    emission_uniformity_percent: float
    most_velocity_m_s: float
    minutes_per_day: float
    supply_share: float | None


@record
class RejectedWorked:
    """A family of choices of which nothing stands, and the reason."""

    emission: str
    reason: str


@record
class SpreadWorked:
    """How likely a container is starved (below 80 % of its share) by making and plugging of the emitters, by seeded
    trial, and what drives it."""

    chance_any_share: float
    likeliest_container: str
    likeliest_share: float
    driver: str
    trials_count: int


@record
class MendWorked:
    """One change that mends a zone, tried by solving it, and what the zone is like with it."""

    change: str
    emission_uniformity_percent: float
    flow_l_h: float
    least_head_m: float


@record
class MatchWorked:
    """Emitters in each container of a row that would let one run time serve the zone, and the surplus then and now."""

    row: str
    emitters_now_count: int
    emitters_matched_count: int
    surplus_now_share: float
    surplus_matched_share: float


@record
class ZoneWarning:
    """Something the solution of a zone warns of: a stable code, the part or container, and what is so."""

    code: str
    where: str
    message: str


@record
class ZoneWorked:
    """One zone: what it draws, what the supply gives, how even it is, how long it runs, and the solved network."""

    name: str
    containers_count: int
    emitters_count: int
    flow_l_h: float
    supply_l_h: float | None
    supply_share: float | None
    supply_share_limit: float | None
    static_head_m: float
    head_after_regulator_m: float
    regulator: str
    emission_uniformity_percent: float
    distribution_uniformity_percent: float
    christiansen_uniformity_percent: float
    most_velocity_m_s: float
    most_velocity_where: str
    least_head_m: float
    worst_container: str
    pressure_budget: tuple[HeadStep, ...]
    containers: tuple[ContainerWater, ...]
    run_times: tuple[RunTimeWorked, ...]
    warnings: tuple[ZoneWarning, ...]
    network: NetworkWorked
    spread: SpreadWorked | None = None
    mends: tuple[MendWorked, ...] = ()
    mends_tried: bool = False
    matches: tuple[MatchWorked, ...] = ()
    choices: tuple[ChoiceWorked, ...] = ()
    rejected: tuple[RejectedWorked, ...] = ()


@record
class Material:
    """Something to have before the day: how much is needed and how much to buy."""

    what: str
    name: str
    volume_l: float | None = None
    pack_l: float | None = None
    length_m: float | None = None
    count: int | None = None


@record
class Design:
    """The whole answer."""

    title: str
    units: str
    site: SiteWorked
    rows: tuple[RowWorked, ...]
    zones: tuple[ZoneWorked, ...]
    materials: tuple[Material, ...]
    assumptions: tuple[Assumption, ...]
    findings: tuple[Finding, ...]
