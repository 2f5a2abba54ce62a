"""Cautions where the work can hurt someone, each with the steps it belongs to. They never replace local rules."""

from brimful.records import record


@record
class Caution:
    """One caution: its topic, the steps of the work it is printed at, what to mind, who decides, and how sure it is."""

    topic: str
    steps: frozenset[str]
    text: str
    decides: str
    source: str


CAUTIONS = (
    Caution(
        "digging",
        frozenset({"dig", "trench", "pad"}),
        "Have the buried services marked before the first spade goes in; in the United States call 811 days ahead. "
        "The marks leave out private lines, old irrigation and lighting wire. Dig by hand near a mark.",
        "the utility locating service",
        "locating service guide for irrigation, read; days and distances from memory",
    ),
    Caution(
        "stone dust",
        frozenset({"cut", "drill"}),
        "Dust from cut brick, stone, concrete or fibre cement harms the lungs for good. Never cut or grind dry: have "
        "water on the blade or a dust collector at the shroud, and stand upwind. Sweep wet; do not blow the dust away.",
        "the silica rule in force; table 1 of 29 CFR 1926.1153 in the United States",
        "limit and table rows read in a state copy and secondary texts; sweeping rule from memory",
    ),
    Caution(
        "eyes, ears and hands",
        frozenset({"cut", "drill"}),
        "Wear goggles, a face shield, ear protection and gloves, and no loose clothing. Keep the guard on and both "
        "hands on the tool. A bare ear has about 15 minutes a day at 100 decibels. Hold the container fast, drill "
        "a pilot hole first, and leave the hammer action off on thin walls.",
        "the maker's instructions for the tool",
        "noise figure read; the rest common practice, no source",
    ),
    Caution(
        "lifting",
        frozenset({"move", "set", "fill", "strip"}),
        "Move containers empty and fill them where they stand: wet and planted they weigh two to six times as much. "
        "Keep fingers and feet out from under the base, and use straps and trucks rated well above the load.",
        "the rating plate of the aid; a trained driver for machines",
        "common practice, no source; see the lifting equation for limits",
    ),
    Caution(
        "decks, balconies and roofs",
        frozenset({"pad", "set", "fill"}),
        "The load printed here is what the container weighs when soaked, over its base. It says nothing about what the "
        "structure under it can carry.",
        "a structural engineer, always",
        "building codes as told in trade articles, read; no verdict is given",
    ),
    Caution(
        "wind",
        frozenset({"set", "plant", "storm"}),
        "A container of dry mix is at its lightest and tips first. Water before a storm, keep tall plants off exposed "
        "corners, and ballast low or gang containers together where they could fall on someone.",
        "an engineer for ties, and the local wind code",
        "statics; remedies are common practice, no source",
    ),
    Caution(
        "drinking water",
        frozenset({"connect", "feed", "winterise"}),
        "Irrigation can push or suck water back into the drinking water. A permanent or feed-injecting system wants "
        "the backflow assembly that the local code names; with an injector, expect a reduced-pressure assembly. A hose "
        "vacuum breaker is not enough. Have the assembly tested every year.",
        "the local plumbing code and water purveyor; a licensed plumber or certified tester",
        "purveyor and city guides, read; stance on injectors is common practice",
    ),
    Caution(
        "electricity",
        frozenset({"drill", "connect", "timer"}),
        "Run tools and outlets near water through a ground-fault (residual current) device and under in-use covers. "
        "Keep valves on low voltage from a listed transformer, with gel-filled joints.",
        "the electrical code; a licensed electrician for anything at mains voltage",
        "electrical and site codes from memory",
    ),
    Caution(
        "feed",
        frozenset({"coat", "feed"}),
        "Wear gloves and eye protection, and a dust mask when tipping bags. Keep nitrates away from acids, fuels and "
        "heat. Where acid is used, it goes into the water, never water into acid. Sweep grains off paving before they "
        "stain or wash away, and keep the safety data sheet at hand.",
        "the label and its safety data sheet",
        "from memory and common practice",
    ),
    Caution(
        "heat",
        frozenset({"set", "fill", "plant", "deadhead", "round"}),
        "Drink a cup (8 oz) of cool water every 15 to 20 minutes, no more than six cups an hour; rest in shade. "
        "Full sun can feel 15 °F hotter than the forecast's heat index. Someone new to the heat starts with a fifth "
        "of the shift and adds a fifth a day.",
        "the employer's heat plan",
        "OSHA heat guides, read",
    ),
    Caution(
        "compressed air",
        frozenset({"winterise"}),
        "Blow lines out at 30 psi (2 bar) or less, ends open, eyes guarded, nobody over an open end, and "
        "never through the backflow assembly.",
        "the makers of tube and emitters",
        "garden press, at most 50 psi, read; 30 psi is a cautious choice",
    ),
    Caution(
        "tripping and traffic",
        frozenset({"lay", "trench", "round"}),
        "Bury, sleeve or cover tube where people walk, pin it flat elsewhere, and set cones where vehicles pass. A lip "
        "of 1/8 in in paving is enough to trip on.",
        "the site's owner; the road authority beside traffic",
        "common practice, no source",
    ),
    Caution(
        "plants that poison or irritate",
        frozenset({"plant", "deadhead", "strip"}),
        "Where children or animals come, check the plant list's warnings. Wear gloves and sleeves with milky or "
        "irritant sap, and wash before eating.",
        "a poison centre or a vet in case of doubt",
        "common practice, no source",
    ),
)


def cautions_at(step: str) -> tuple[Caution, ...]:
    """The cautions that belong at one step of the work, in the order of the table.

    Args: step: key of a step, as "cut", "fill" or "connect".
    Returns: cautions; empty where the step has none.
    Valid: any word.
    Source: each caution names its own.

    >>> [caution.topic for caution in cautions_at("cut")]
    ['stone dust', 'eyes, ears and hands']
    """
    return tuple(caution for caution in CAUTIONS if step in caution.steps)
