"""The build: one container's sequence with its reasons, the same at every station, and the steps of the site."""

from collections.abc import Sequence

from brimful.domains.work.network import Step
from brimful.records import record

PRACTICE = "common practice, no source"
HAND_TRUCK = "hand truck"
FILL_MIN_L = 2.5 / 28.316846592  # 2.5 minutes a cubic foot of bagged mix, 2 to 3; common practice, no source


@record
class Station:
    """What one container asks of its builders: mix [L], plants, emitters."""

    place: str
    fill_l: float
    centre_plants: int
    outer_plants: int
    emitters: int

    def __post_init__(self) -> None:
        amounts = (self.fill_l, self.centre_plants, self.outer_plants, self.emitters)
        if not min(amounts) >= 0.0:
            raise ValueError(f"a station is expected to have amounts of 0 or more, got {self}")


@record
class Template:
    """One step of the sequence: what it waits for and why; minutes fixed, a litre of mix, a plant, an emitter."""

    kind: str
    name: str
    after: tuple[str, ...]
    reason: str
    fixed_min: float = 0.0
    per_litre_min: float = 0.0
    per_centre_min: float = 0.0
    per_outer_min: float = 0.0
    per_emitter_min: float = 0.0
    people: int = 1
    equipment: tuple[str, ...] = ()


# All minutes are common practice, no source: 20 to set a large container with two people (15 to 30), 1 minute
# a 4-inch plant (0.75 to 1.25), 10 minutes to fit one container's drip (8 to 12), 5 to water in.
SEQUENCE = (
    Template(
        "mark",
        "Mark the place from the set-out table",
        ("site:mark",),
        "Tape from the first end mark every time, so that errors do not add up.",
        fixed_min=2,
    ),
    Template("pad", "Level the pad", ("mark",), "A container off level waters its low side only.", fixed_min=15),
    Template(
        "set",
        "Set and level the empty container",
        ("pad",),
        "Empty it weighs a half to a sixth of what it weighs planted and wet; check the rim in two directions now.",
        fixed_min=20,
        people=2,
        equipment=(HAND_TRUCK,),
    ),
    Template(
        "lay",
        "Draw the tube in through the drain hole and up",
        ("set", "site:lay"),
        "Tube before mix: once it is filled nobody gets at the hole.",
        fixed_min=4,
    ),
    Template(
        "fill",
        "Fill and firm the mix in layers",
        ("lay",),
        "Firm as you go: mix that sinks later takes plants and tube with it.",
        per_litre_min=FILL_MIN_L,
    ),
    Template(
        "coat",
        "Work coated feed into the top layer",
        ("fill",),
        "Feed before roots: afterwards it only lies on top.",
        fixed_min=1,
    ),
    Template(
        "centre",
        "Plant the centre",
        ("coat",),
        "From the middle outwards, so that no planted ring is leant over.",
        per_centre_min=1,
    ),
    Template(
        "emitters",
        "Lay the ring of tube and set the emitters",
        ("centre", "site:flush"),
        "Tube before the outer ring: after it you cannot reach. Lines are flushed first, or grit plugs the emitters.",
        fixed_min=2,
        per_emitter_min=1,
    ),
    Template(
        "plant", "Plant the outer ring", ("emitters",), "Root balls go beside the emitters, not over.", per_outer_min=1
    ),
    Template(
        "water", "Water in and look at every emitter", ("plant",), "The first wetting settles the mix.", fixed_min=5
    ),
)


def container_steps(station: Station, *, site: Sequence[str] = ()) -> tuple[Step, ...]:
    """The build of one container as steps with reasons and minutes.

    Formula: minutes = fixed + litres, plants and emitters times theirs.
    Args: station: what this container asks. site: kinds of site steps that are there to wait for, as "lay".
    Returns: steps whose keys start with the place.
    Valid: places differ from one another.
    Source: sequence and minutes are common practice, no source.
    """
    return tuple(
        Step(
            key=f"{station.place}:{template.kind}",
            name=template.name,
            minutes=_minutes(template, station),
            people=template.people,
            equipment=template.equipment,
            after=tuple(_after(key, station.place) for key in template.after if _there(key, site)),
            reason=template.reason,
            place=station.place,
            kind=template.kind,
            source=PRACTICE,
        )
        for template in SEQUENCE
    )


def site_steps(*, tube_m: float, trench_m: float = 0.0, permanent: bool = False) -> tuple[Step, ...]:
    """The steps of the site before and around the containers, as far as they do not belong to one of them.

    Formula: base line 15 min; trench 4 min/m; tube 0.5 min/m; connection 30 min.
    Args: tube_m: mainline and laterals [m]. trench_m: dug [m]. permanent: hard connection.
    Returns: steps whose keys start with "site"; a step without length takes no time.
    Valid: all ≥ 0.
    Source: minutes are common practice, no source.
    """
    if not min(tube_m, trench_m) >= 0.0:
        raise ValueError("tube and trench are expected to be 0 or more")
    rows = [
        ("mark", "Set the end marks and the base line", 15.0, (), "Everything else is measured from these."),
        ("trench", "Dig the trench", 4.0 * trench_m, ("mark",), "Buried services are marked before the first spade."),
        ("lay", "Lay mainline and laterals", 0.5 * tube_m, ("mark", "trench"), "Tube lies before containers cover it."),
        (
            "connect",
            "Connect supply, backflow assembly, filter, regulator and timer",
            90.0 if permanent else 30.0,
            (),
            "Backflow first, then filter, then regulator.",
        ),
        ("flush", "Flush every line with its end open", 15.0, ("lay", "connect"), "Grit leaves before emitters go in."),
    ]
    return tuple(
        Step(f"site:{kind}", name, minutes, 1, (), tuple(f"site:{key}" for key in after), reason, "site", kind)
        for kind, name, minutes, after, reason in rows
    )


def run_steps(
    stations: Sequence[Station], *, tube_m: float, trench_m: float = 0.0, permanent: bool = False
) -> tuple[Step, ...]:
    """The build of the whole run: the site, every container by the same sequence, and the leak test at the end.

    Args: stations: one a container. tube_m, trench_m: laid and dug [m]. permanent: hard connection.
    Returns: steps of the network.
    Valid: places differ from one another.
    Source: sequence and minutes are common practice, no source.
    """
    site = site_steps(tube_m=tube_m, trench_m=trench_m, permanent=permanent)
    kinds = [step.kind for step in site]
    built = [step for station in stations for step in container_steps(station, site=kinds)]
    last = tuple(step.key for step in built if step.kind == SEQUENCE[-1].kind)
    test = Step(
        "site:test",
        "Run every zone: look for leaks, catch the first and the last container",
        20.0,
        after=last or ("site:flush",),
        reason="What leaks is mended before the crew leaves.",
        place="site",
        kind="test",
    )
    return (*site, *built, test)


def _minutes(template: Template, station: Station) -> float:
    return (
        template.fixed_min
        + template.per_litre_min * station.fill_l
        + template.per_centre_min * station.centre_plants
        + template.per_outer_min * station.outer_plants
        + template.per_emitter_min * station.emitters
    )


def _there(key: str, site: Sequence[str]) -> bool:
    return not key.startswith("site:") or key.removeprefix("site:") in site


def _after(key: str, place: str) -> str:
    return key if key.startswith("site:") else f"{place}:{key}"
