"""What is worked out about a plan's planting; every figure of one container unless it says otherwise."""

from dataclasses import dataclass

from brimful.design.model import PlaceWorked
from brimful.findings import Finding


@dataclass(frozen=True, slots=True)
class StepWorked:
    """One step of planting a container, and why it comes here."""

    what: str
    why: str


@dataclass(frozen=True, slots=True)
class CoverWorked:
    """Leaves over the mouth so many weeks after planting."""

    week: int
    canopy_area_m2: float
    cover_share: float
    gap_m2: float
    overhang_m2: float


@dataclass(frozen=True, slots=True)
class BloomWorked:
    """Share of a month, such as "2026-06", in which a taxon blooms."""

    plant: str
    month: str
    share: float


@dataclass(frozen=True, slots=True)
class SwatchWorked:
    """A colour of the palette and how warm it looks: above 0 warm, below 0 cool."""

    colour: str
    srgb: str
    plants: tuple[str, ...]
    warmth: float


@dataclass(frozen=True, slots=True)
class PairWorked:
    """Two colours of the palette: difference (CIEDE2000), harmony, and the least difference for any colour vision."""

    one: str
    other: str
    difference: float
    harmony: float
    least_seen_difference: float
    lightness_step: float


@dataclass(frozen=True, slots=True)
class UpkeepWorked:
    """Work on all containers of the row in one week."""

    week: str
    visit_h: float
    deadhead_h: float
    trim_h: float


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class OrderWorked:
    """Plants of one taxon and size for the whole plan, with spares, in whole trays, and the dates."""

    plant: str
    size: str
    needed_count: int
    trays_count: int
    ordered_count: int
    order_from: str
    order_by: str
    hardening: str
    planting: str


@dataclass(frozen=True, slots=True)
class PlantingWorked:
    """The planting of a plan."""

    title: str
    units: str
    rows: tuple[RowPlanting, ...]
    orders: tuple[OrderWorked, ...]
    growth_taken_as: str
    coldest_taken_as: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class PartWorked:
    """One part of a score, 0 to 1, and its weight."""

    part: str
    score: float
    weight: float


@dataclass(frozen=True, slots=True)
class SubstituteWorked:
    """A plant that can stand in: score 0 to 1, how many a container, and what changes."""

    plant: str
    name: str
    score: float
    count: int
    parts: tuple[PartWorked, ...]
    changes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SwapWorked:
    """What can stand in for one plant in one row, best first; `stopped_count` taxa cannot."""

    row: str
    plant: str
    count: int
    sun_h: float
    sun_taken_as: str
    substitutes: tuple[SubstituteWorked, ...]
    stopped_count: int
