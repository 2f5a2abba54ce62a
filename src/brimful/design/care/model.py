"""What build and care work out to: order, set-out, handling, work, feed, season. Keys carry their unit.

An `_amount` stands in the `unit` that its own table names (each, m, l, kg, m3).
"""

from datetime import date
from typing import Literal

from brimful.design.model import Assumption
from brimful.findings import Finding
from brimful.records import record

Unit = Literal["each", "m", "l", "kg", "m3"]


@record
class OrderItem:
    """One line of the order: what the job takes, spares, what is on hand, and what to buy for how much."""

    key: str
    name: str
    group: str
    supplier: str
    purposes: tuple[str, ...]
    unit: Unit
    needed_amount: float
    spare_amount: float
    on_hand_amount: float
    pack_amount: float
    packs_count: int
    left_over_amount: float
    price_pack_money: float | None
    cost_money: float | None
    currency: str
    price_source: str
    one_more_packs_count: int


@record
class OrderWorked:
    """The order and what it costs as far as prices are known; one container more, as it changes whole packs."""

    currency: str
    items: tuple[OrderItem, ...]
    cost_money: float
    cost_container_money: float
    one_more_container: str
    one_more_money: float
    unpriced: tuple[str, ...]
    other_currency: tuple[str, ...]


@record
class CutRollWorked:
    """One roll opened: the pieces to cut from it in order, and what is left."""

    roll_m: float
    on_hand: bool
    labels: tuple[str, ...]
    pieces_m: tuple[float, ...]
    offcut_m: float


@record
class CutTubeWorked:
    """The cut list of one tube: rolls to open, couplers where a line is longer than a roll, and the proof."""

    key: str
    name: str
    rolls: tuple[CutRollWorked, ...]
    couplers_count: int
    cost_money: float
    bound_money: float
    proven: bool


@record
class StationWorked:
    """One container's place along its line from the first mark, tape checks, and the level of its pad."""

    container: str
    middle_m: float
    near_edge_m: float
    far_edge_m: float
    moved_m: float
    diagonal_m: float
    ground_m: float
    top_m: float
    cut_m: float
    fill_m: float
    bricks_count: int
    shims_count: int
    level_error_m: float


@record
class TubeWayWorked:
    """The way in for the tube under each container: room left over it, and the least feet or channel that clears it."""

    tube: str
    outer_diameter_m: float
    under: str
    height_m: float
    hole_m: float
    room_under_m: float
    room_in_hole_m: float
    least_height_m: float
    tube_needed_m: float
    clear: bool


@record
class SetOutWorked:
    """One row set out by tape and level: marks, pitch, how far out from fence or kerb, and each container."""

    row: str
    marks_m: float
    along_m: float
    pitch_m: float
    largest_move_m: float
    narrowest_gap_m: float
    even: bool
    even_counts: tuple[int, ...]
    out_m: float
    fall_m_m: float
    pads: bool
    stations: tuple[StationWorked, ...]
    way_in: TubeWayWorked | None


@record
class HandlingWorked:
    """One container of a row in the hand: weights, lifting, ways to move it, wind at its lightest, load under it.

    No lifting index stands where the container is out of one person's reach.
    """

    row: str
    empty_kg: float
    dry_kg: float
    drained_kg: float
    saturated_kg: float
    lift_limit_kg: float
    lift_index: float | None
    lift_words: str
    ways_empty: tuple[str, ...]
    ways_planted: tuple[str, ...]
    fill_in_place: bool
    times_heavier: float
    gust_m_s: float
    tipping_safety: float
    tipping_gust_m_s: float
    sliding_gust_m_s: float
    stands: bool
    ballast_kg: float
    base_area_m2: float
    load_kg_m2: float
    load_kpa: float
    load_words: str


@record
class BagWorked:
    """Lifting bags of mix: from the ground against from a bench, with the lifting index of each."""

    mix: str
    bag_kg: float
    index_from_ground: float
    index_from_bench: float
    words: str


@record
class CautionWorked:
    """A caution at the step where it applies, and who decides."""

    topic: str
    text: str
    decides: str


@record
class CardStep:
    """One step of a card: how long, how many hands and tools, why here in the order, and what to mind."""

    kind: str
    name: str
    minutes_each: float
    people_count: int
    equipment: tuple[str, ...]
    reason: str
    source: str
    cautions: tuple[CautionWorked, ...]


@record
class CardWorked:
    """The same steps for every container of a row (or once, for the site): a card to print and tick."""

    place: str
    containers: tuple[str, ...]
    steps: tuple[CardStep, ...]
    each_hours: float


@record
class SlotWorked:
    """One step in the schedule: on which day, from and to in minutes of that day, and who."""

    key: str
    place: str
    name: str
    day_count: int
    start_min: float
    end_min: float
    people: tuple[int, ...]


@record
class BuildWorked:
    """The build of the run: schedule for the crew, finish, what holds it up, and what one more pair of hands saves."""

    people_count: int
    day_hours: float
    finish_hours: float
    finish_days_count: int
    best_possible_hours: float
    held_up_by: str
    saved_by_one_more_hours: float
    person_hours: float
    done_count: int
    longest_chain: tuple[str, ...]
    cards: tuple[CardWorked, ...]
    slots: tuple[SlotWorked, ...]


@record
class TaskWorked:
    """One task of the season on its day; `uid` lasts over exports."""

    uid: str
    key: str
    name: str
    day: date
    minutes_total: float
    text: str


@record
class WeekHours:
    """Hours of work in the week that starts on this Monday."""

    monday: date
    hours: float


@record
class SeasonTasks:
    """The season's tasks by rule from planting to frost, and the hours of each week."""

    planted: date
    frost: date
    tasks: tuple[TaskWorked, ...]
    weeks: tuple[WeekHours, ...]
    total_hours: float


@record
class SolubleWorked:
    """The soluble feed: strength, and what to weigh, in every way people write it; spoons are approximate."""

    key: str
    feed: str
    nitrogen_percent: float
    nitrogen_ppm: float
    strength_g_l: float
    strength_oz_100gal: float
    spoons_tsp_gal: float
    spoons_low_tsp_gal: float
    spoons_high_tsp_gal: float
    ratio: float
    ratio_means: str
    stock_g_l: float
    stock_oz_gal: float
    stock_limit_g_l: float
    dissolves: bool
    weakest_ratio: float
    solution_ec_ms_cm: float | None
    made_up_n_ppm: float


@record
class CoatedWorked:
    """Coated feed for one container of a row: the dose, which rule set it, and when most of it is out."""

    row: str
    containers_count: int
    key: str
    feed: str
    dose_g: float
    by_volume_g: float
    by_surface_g: float
    nitrogen_g: float
    rated_days: float
    refeed_day: date | None
    released_weekly_share: tuple[float, ...]


@record
class TankWorked:
    """One feeding of a zone: what to weigh, and how much goes in the tank."""

    day: date
    zone: str
    containers_count: int
    solution_l: float
    nitrogen_ppm: float
    feed_g: float
    stock_l: float
    nitrogen_each_g: float


@record
class NitrogenWeek:
    """One week of the nitrogen balance in one container of a row."""

    monday: date
    released_g: float
    fed_g: float
    demand_g: float
    taken_up_g: float
    drained_g: float
    stored_g: float
    solution_ppm: float


@record
class NitrogenWorked:
    """The season's nitrogen in one container of a row: week by week, and whether the plan feeds too little or much."""

    row: str
    weeks: tuple[NitrogenWeek, ...]
    short_g: float
    drained_g: float
    verdict: str


@record
class FeedWorked:
    """The feed plan of the season."""

    soluble: SolubleWorked | None
    coated: tuple[CoatedWorked, ...]
    tanks: tuple[TankWorked, ...]
    nitrogen: tuple[NitrogenWorked, ...]
    water_taken_from: str


@record
class Care:
    """Build and care, whole."""

    title: str
    units: str
    order: OrderWorked | None
    cuts: tuple[CutTubeWorked, ...]
    set_out: tuple[SetOutWorked, ...]
    handling: tuple[HandlingWorked, ...]
    bags: tuple[BagWorked, ...]
    build: BuildWorked | None
    season: SeasonTasks | None
    feed: FeedWorked | None
    assumptions: tuple[Assumption, ...]
    findings: tuple[Finding, ...]
