"""The season's tasks by rule, from start-up to storage, until the frost date says stop."""

from collections.abc import Sequence
from datetime import date, timedelta
from enum import Enum

from brimful.records import record

WALK_FT_MIN = 260.0  # free walking, 3 mph; common practice, no source
WALK_M_MIN = WALK_FT_MIN * 0.3048
CART_M_MIN = 175.0 * 0.3048  # with a cart; common practice, no source
SET_UP_MIN = 12.0  # 10 to 15 a round; common practice, no source
ALLOWANCE = 0.10  # common practice, no source
GROOM_MIN = {"self-cleaning": 1.0, "usual": 3.0, "heavy": 5.0}  # a container and week; common practice, no source


class Anchor(Enum):
    """What a rule counts its days from."""

    PLANTED = "the day of planting"
    MIDSEASON = "half way from planting to frost"
    FROST = "the frost date the plan goes by"


@record
class SeasonRule:
    """One task by rule: from and to (days from an anchor), how often, minutes in all and for each container."""

    key: str
    name: str
    start: tuple[Anchor, int]
    end: tuple[Anchor, int] | None = None
    every_days: int = 0
    fixed_min: float = 0.0
    each_min: float = 0.0
    reason: str = ""
    source: str = "common practice, no source"

    def __post_init__(self) -> None:
        if self.every_days < 0 or (self.end is not None) != (self.every_days > 0):
            raise ValueError(f"rule {self.key}: an interval in days and an end are expected together, or neither")
        if not min(self.fixed_min, self.each_min) >= 0.0:
            raise ValueError(f"rule {self.key}: minutes are expected to be 0 or more")


@record
class SeasonTask:
    """One task on one day: its rule, its number within the rule from 1, the day, and how long it takes [min]."""

    key: str
    name: str
    number: int
    day: date
    minutes: float
    reason: str


P, M, F = Anchor.PLANTED, Anchor.MIDSEASON, Anchor.FROST
RULES = (
    SeasonRule("start", "Start-up: flush, leak test, set the timer", (P, -3), fixed_min=45, each_min=1),
    SeasonRule("catch", "Catch test at the first, middle and last containers", (P, 7), fixed_min=30),
    SeasonRule(
        "feed",
        "Feed",
        (P, 14),
        (F, -14),
        7,
        10,
        0.5,
        "Roots are out after two weeks; late feed only makes soft growth.",
    ),
    SeasonRule("groom", "Deadhead, trim and look for pests", (P, 21), (F, -1), 7, 0, GROOM_MIN["usual"]),
    SeasonRule(
        "filter",
        "Clean the filter, flush the ends",
        (P, 28),
        (F, -14),
        28,
        20,
        0,
        "Half-plugged filters starve the far end.",
    ),
    SeasonRule("timer", "Timer: battery, clock, stuck buttons, program", (P, 30), (F, -1), 30, 5),
    SeasonRule("check", "Mid-season check: levels, plugged emitters, salt, gaps", (M, 0), fixed_min=20, each_min=3),
    SeasonRule("catch-late", "Catch test again", (M, 3), fixed_min=30, reason="Emitters drift as they plug."),
    SeasonRule(
        "winterise",
        "Shut down: water off, drain or blow out, open the ends",
        (F, -2),
        fixed_min=60,
        each_min=1,
        reason="Before the first night of 28 °F (−2 °C): fittings split, tube seldom does.",
    ),
    SeasonRule("strip", "Strip, cut down, haul", (F, 3), each_min=12),
    SeasonRule(
        "store",
        "Store timer, filter, regulator and backflow device indoors; containers dry",
        (F, 7),
        fixed_min=30,
        each_min=2,
    ),
)


def season_tasks(rules: Sequence[SeasonRule], *, planted: date, frost: date, containers: int) -> tuple[SeasonTask, ...]:
    """Every task of the season with its day and minutes, by rule from planting and frost date.

    Formula: from the start on, every so many days, to the end; once where no interval is given.
    Args: rules: of the season. planted: day of planting. frost: date the plan goes by. containers: looked after.
    Returns: tasks by day, then in the order of the rules.
    Valid: planted before frost, containers ≥ 0.
    Source: rules and minutes are common practice, no source.
    """
    if not planted < frost:
        raise ValueError(f"planted {planted} and frost {frost}; expected planting before frost")
    if containers < 0:
        raise ValueError(f"{containers} containers; expected 0 or more")
    anchors = {P: planted, M: planted + (frost - planted) / 2, F: frost}
    tasks = [
        SeasonTask(rule.key, rule.name, n, day, rule.fixed_min + rule.each_min * containers, rule.reason)
        for rule in rules
        for n, day in enumerate(_days(rule, anchors), start=1)
    ]
    return tuple(sorted(tasks, key=lambda task: task.day))


def hours_by_week(tasks: Sequence[SeasonTask]) -> dict[date, float]:
    """Hours of work in each week of the season, by its Monday [h].

    Args: tasks: of the season.
    Returns: hours by Monday, weeks without work left out.
    Valid: any tasks.
    Source: sum.
    """
    hours: dict[date, float] = {}
    for task in sorted(tasks, key=lambda task: task.day):
        monday = task.day - timedelta(days=task.day.weekday())
        hours[monday] = hours.get(monday, 0.0) + task.minutes / 60.0
    return hours


def round_minutes(
    containers: int,
    each_min: float,
    route_m: float,
    *,
    speed_m_min: float = WALK_M_MIN,
    set_up_min: float = SET_UP_MIN,
    allowance: float = ALLOWANCE,
) -> float:
    """Time of one round past all containers: the work, the walk, getting ready, and something for the unforeseen [min].

    Formula: (containers × minutes each + route / speed + set-up) × 1.1.
    Args: containers: visited. each_min: at each [min]. route_m: loop walked [m]. speed_m_min: walking [m/min].
        set_up_min: before and after [min]. allowance: share added.
    Returns: minutes.
    Valid: all ≥ 0, speed > 0.
    Source: norms are common practice, no source.

    >>> round(round_minutes(20, 3.5, 1200 * 0.3048), 1)
    95.3
    """
    if not (min(containers, each_min, route_m, set_up_min, allowance) >= 0.0 and speed_m_min > 0.0):
        raise ValueError("containers, minutes, route and set-up are expected to be 0 or more, speed above 0")
    return (containers * each_min + route_m / speed_m_min + set_up_min) * (1.0 + allowance)


def _days(rule: SeasonRule, anchors: dict[Anchor, date]) -> list[date]:
    first = anchors[rule.start[0]] + timedelta(days=rule.start[1])
    if rule.end is None:
        return [first]
    last = anchors[rule.end[0]] + timedelta(days=rule.end[1])
    return [first + timedelta(days=n) for n in range(0, (last - first).days + 1, rule.every_days)]
