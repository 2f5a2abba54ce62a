"""Ways to move a load: people, trucks and machines, and the case for filling in place."""

from collections.abc import Sequence

from brimful.records import record

TEAM_FACTOR = {1: 1.0, 2: 1.8, 3: 2.5}  # people do not add up whole; from memory, no source read
BAG_LIMIT_KG = 22.7  # 50 lb a bag for one person; common practice, no source
BY_MACHINE_KG = 45.4  # containers above 100 lb go by machine or truck; common practice, no source
MANY_AT_RISK = 3.0  # lifting index above which most workers are at risk (NIOSH 94-110, read in a public transcription)
WEAKEST_REMEDY = {
    "reach": "Bring the load closer to the body before lifting, or walk round to its near side.",
    "height": "Lift between knee and waist: stage loads on a bench or a tailgate, not on the ground.",
    "travel": "Shorten the rise: set a step or a bench between ground and rim.",
    "twist": "Turn the feet, not the back: put the load straight ahead at both ends.",
    "pace": "Slow down or change over, so that one person lifts less often.",
    "grip": "Get a better hold: straps, handles, or gloves that grip.",
}


@record
class MovingAid:
    """A way to move a load: what it carries [kg], the hands it takes, what it needs, and how sure that is."""

    name: str
    capacity_kg: float
    people: int
    note: str
    source: str = "common practice, no source"


AIDS = (
    MovingAid("lifting straps", 90.0, 2, "Two people in step; straps under the base, never under the rim."),
    MovingAid("hand truck", 225.0, 2, "Strap the container on; plan ramps for every kerb."),
    MovingAid("pallet jack", 1500.0, 2, "Firm level paving only; set on a pallet or blocks first."),
    MovingAid("loader with slings", 600.0, 2, "Slings rated five times the load; nobody under or beside the swing."),
    MovingAid("telehandler with slings", 2500.0, 3, "Trained driver, a signaller, firm ground; off pads and tube."),
)


@record
class MovingAdvice:
    """Ways that carry the container empty and planted, and how many times heavier it is planted and wet."""

    empty: tuple[str, ...]
    planted: tuple[str, ...]
    times_heavier: float

    @property
    def fill_in_place(self) -> bool:
        """Whether setting it empty opens a lighter way than moving it planted."""
        return self.empty[:1] != self.planted[:1]


def team_limit_kg(one_person_kg: float, people: int) -> float:
    """What a team may lift together, from one person's limit [kg].

    Formula: one person's limit × 1.8 for two, × 2.5 for three.
    Args: one_person_kg: recommended limit for one [kg]. people: 1 to 3.
    Returns: the team's limit [kg].
    Valid: 1 to 3 people of like height, who lift on a word.
    Source: factors from memory, no source read.
    """
    if people not in TEAM_FACTOR:
        raise ValueError(f"a lifting team of {people}; expected 1, 2 or 3 people")
    return one_person_kg * TEAM_FACTOR[people]


def ways_to_move(load_kg: float, one_person_kg: float, *, aids: Sequence[MovingAid] = AIDS) -> tuple[str, ...]:
    """Every way that carries a load, the simplest first; empty where the load is heavier than any of them.

    Args: load_kg: what moves [kg]. one_person_kg: recommended limit of one lift [kg]. aids: trucks, machines.
    Returns: names of ways, hands before aids, small aids before large.
    Valid: load_kg ≥ 0.
    Source: capacities are common practice, no source; the rating plate of the aid rules.
    """
    if not (load_kg >= 0.0 and one_person_kg >= 0.0):
        raise ValueError(f"load {load_kg:g} kg and limit {one_person_kg:g} kg; expected 0 or more")
    teams = [
        "one person" if people == 1 else f"{people} people"
        for people in TEAM_FACTOR
        if load_kg <= team_limit_kg(one_person_kg, people)
    ]
    carriers = sorted((aid for aid in aids if load_kg <= aid.capacity_kg), key=lambda aid: aid.capacity_kg)
    return (*teams, *(aid.name for aid in carriers))


def moving_advice(
    empty_kg: float, planted_kg: float, one_person_kg: float, *, aids: Sequence[MovingAid] = AIDS
) -> MovingAdvice:
    """How to move a container, empty against planted and wet.

    Args: empty_kg: shell alone [kg]. planted_kg: shell, wet mix and plants [kg]. one_person_kg: of one lift [kg].
    Returns: ways for both, and how many times heavier it becomes.
    Valid: 0 < empty_kg ≤ planted_kg.
    Source: comparison of weights; set empty and fill in place is common practice, no source.
    """
    if not 0.0 < empty_kg <= planted_kg:
        raise ValueError(f"empty {empty_kg:g} kg and planted {planted_kg:g} kg; expected 0 < empty ≤ planted")
    empty, planted = (ways_to_move(kg, one_person_kg, aids=aids) for kg in (empty_kg, planted_kg))
    return MovingAdvice(empty, planted, planted_kg / empty_kg)


def index_words(index: float, weakest: str) -> str:
    """What a lifting index means for the person lifting, and what mends the worst part of the lift.

    Args: index: load over recommended limit [-]. weakest: name of the lowest factor, as lift_limit gives it.
    Returns: one or two sentences.
    Valid: index ≥ 0.
    Source: aim for 1 or less, above 3 most workers are at risk (NIOSH 94-110); remedies are common practice.
    """
    if index <= 1.0:
        return "Within the limit for most healthy workers."
    remedy = WEAKEST_REMEDY[weakest]
    if index <= MANY_AT_RISK:
        return f"Above the recommended limit: lighten it, share it or use an aid. {remedy}"
    return f"Far above the limit, most workers would be at risk: do not lift this by hand. {remedy}"
