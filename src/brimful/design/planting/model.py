"""What is worked out about a plan's planting; every figure of one container unless it says otherwise."""

from brimful.design.model import PlaceWorked
from brimful.findings import Finding
from brimful.records import record


@record
class StepWorked:
    """One step of planting a container, and why it comes here."""

    what: str
    why: str


@record
class CoverWorked:
    """Leaves over the mouth so many weeks after planting."""

    week: int
    canopy_area_m2: float
    cover_share: float
    gap_m2: float
    overhang_m2: float


@record
class BloomWorked:
    """Share of a month, such as "2026-06", in which a taxon blooms."""

    plant: str
    month: str
    share: float


@record
class SwatchWorked:
    """A colour of the palette and how warm it looks: above 0 warm, below 0 cool."""

    colour: str
    srgb: str
    plants: tuple[str, ...]
    warmth: float


@record
class PairWorked:
    """Two colours of the palette: difference (CIEDE2000), harmony, and the least difference for any colour vision."""

    one: str
    other: str
    difference: float
    harmony: float
    least_seen_difference: float
    lightness_step: float


@record
class UpkeepWorked:
    """Work on the containers of a row, or of the plan, in one week, and which taxa are cut back in it."""

    week: str
    visit_h: float
    deadhead_h: float
    trim_h: float
    trimmed: tuple[str, ...]


@record
class DensityWorked:
    """One container planted to grow in, or for a full look at once: plants, what they cost at the price of one (None
    where a price is missing), water on planting day and at mid-season; `chosen` as the plan has it."""

    density: str
    chosen: bool
    plants_count: int
    cost_money: float | None
    water_planting_l_day: float
    water_l_day: float
    does_not_fit: tuple[str, ...]


@record
class RowPlanting:
    """The planting of a row of equal containers."""

    row: str
    containers_count: int
    places: tuple[PlaceWorked, ...]
    loop_length_m: float | None
    loop_inset_m: float | None
    reasons: tuple[str, ...]
    steps: tuple[StepWorked, ...]
    cover: tuple[CoverWorked, ...]
    bloom: tuple[BloomWorked, ...]
    swatches: tuple[SwatchWorked, ...]
    pairs: tuple[PairWorked, ...]
    upkeep: tuple[UpkeepWorked, ...]
    densities: tuple[DensityWorked, ...]


@record
class OrderWorked:
    """Plants of one taxon and size for the whole plan, with spares, in whole trays, and the dates; `colours` where the
    plan names them, as "72 pink"; `hardening` empty for what needs none, the cost None where no price is known."""

    plant: str
    size: str
    colours: tuple[str, ...]
    needed_count: int
    per_tray_count: int
    trays_count: int
    ordered_count: int
    cost_money: float | None
    lead: str
    order_from: str
    order_by: str
    hardening: str
    planting: str


@record
class WindowWorked:
    """When a taxon may be planted and what holds the first day, "frost" or "mix temperature"; the least temperature of
    the mix; the temperature that harms it, and the day by which half of the seasons have such a night. Empty: not
    known, or not of this season."""

    plant: str
    hardiness: str
    plant_from: str
    plant_until: str
    held_by: str
    mix_least_c: float
    harmed_at_c: float
    ends: str


@record
class PartWorked:
    """One part of a score, 0 to 1, and its weight."""

    part: str
    score: float
    weight: float


@record
class EffectWorked:
    """One container with a plant in it, and what changes against now: water at mid-season, the bill of all plants (None
    where a price is missing); months of bloom, feed and upkeep of the plant; what does not fit."""

    water_l_day: float
    water_change_l_day: float
    bill_change_money: float | None
    bloom_months: tuple[str, ...]
    feed: str
    deadhead: str
    trim: str
    does_not_fit: tuple[str, ...]


@record
class SubstituteWorked:
    """A plant that can stand in: score 0 to 1, how many a container, what changes in words and in figures."""

    plant: str
    name: str
    score: float
    count: int
    parts: tuple[PartWorked, ...]
    changes: tuple[str, ...]
    effect: EffectWorked


@record
class SwapWorked:
    """What can stand in for one plant in the rows and containers named, best first, and how it is now; `stopped_count`
    taxa cannot."""

    rows: tuple[str, ...]
    containers: tuple[str, ...]
    plant: str
    count: int
    why: str
    sun_h: float
    sun_taken_as: str
    currency: str
    now: EffectWorked
    substitutes: tuple[SubstituteWorked, ...]
    stopped_count: int


@record
class PlantingWorked:
    """The planting of a plan; `swaps` where a plant stands in too little or too much sun."""

    title: str
    units: str
    rows: tuple[RowPlanting, ...]
    orders: tuple[OrderWorked, ...]
    windows: tuple[WindowWorked, ...]
    swaps: tuple[SwapWorked, ...]
    upkeep: tuple[UpkeepWorked, ...]
    growth_taken_as: str
    coldest_c: float
    coldest_taken_as: str
    last_frost: str
    last_frost_taken_as: str
    currency: str
    findings: tuple[Finding, ...]
