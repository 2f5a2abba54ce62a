"""Checks on build and care: what cannot be lifted, what the wind tips, what is not priced, what is fed wrong."""

from collections.abc import Callable, Iterator

from brimful.design.care.model import Care, HandlingWorked
from brimful.findings import Finding, Severity
from brimful.plan.read import Places
from brimful.quantities import Dimension, System, show

CareCheck = Callable[[Care, Places], Iterator[Finding]]


def too_heavy(care: Care, places: Places) -> Iterator[Finding]:
    """An empty container is no heavier than some way to move it."""
    for index, one in enumerate(care.handling):
        if not one.ways_empty:
            said = f'row "{one.row}": a container weighs {_mass(one.empty_kg, care)} empty, more than any aid carries'
            mend = "Hire a crane with its crew, or take a lighter container. Name what you have in [crew] equipment."
            yield Finding("too-heavy", Severity.WARNING, said, mend, places.at("containers", index))


def wind_moves(care: Care, places: Places) -> Iterator[Finding]:
    """A container of dry mix stands in the gust the plan goes by."""
    for index, one in enumerate(care.handling):
        if not one.stands:
            said, mend = _wind_words(one, care)
            yield Finding("wind-moves", Severity.WARNING, said, mend, places.at("containers", index))


def unpriced(care: Care, places: Places) -> Iterator[Finding]:
    """Every line of the order has a price in the plan's currency; what has none is left out of the total, and said."""
    if care.order is None:
        return
    if care.order.unpriced:
        keys = {item.name: item.key for item in care.order.items}
        named = tuple(f'{name} (key "{keys[name]}")' if name in keys else name for name in care.order.unpriced)
        said = f"no price is known for {_some(named)}; the total leaves that out"
        yield Finding("no-price", Severity.NOTE, said, "Give it in brimful-prices.csv beside the plan.", places.at())
    if care.order.other_currency:
        said = f"{_some(care.order.other_currency)} are priced in another currency than {care.order.currency}"
        mend = "Nothing is converted: give their price in the plan's currency, or set currency."
        yield Finding("other-currency", Severity.WARNING, said, mend, places.at("currency"))


def fed_wrong(care: Care, places: Places) -> Iterator[Finding]:
    """The season's nitrogen is about what the plants can use."""
    for one in care.feed.nitrogen if care.feed is not None else ():
        if one.verdict == "about right" or not one.weeks:
            continue
        wanted = sum(week.demand_g for week in one.weeks)
        came = sum(week.released_g + week.fed_g for week in one.weeks)
        said = f'row "{one.row}": each container gets {came:.0f} g of nitrogen over the season; its plants can use '
        said += f"about {wanted:.0f} g: {one.verdict}"
        mend = "Feed stronger, oftener or with more coated feed." if one.verdict == "too little" else "Feed weaker."
        yield Finding("fed-wrong", Severity.NOTE, said, mend, places.at("feed"))


CHECKS: tuple[CareCheck, ...] = (too_heavy, wind_moves, unpriced, fed_wrong)


def care_findings(care: Care, places: Places) -> tuple[Finding, ...]:
    """What every check on build and care finds."""
    return tuple(finding for check in CHECKS for finding in check(care, places))


def _wind_words(one: HandlingWorked, care: Care) -> tuple[str, str]:
    system = _system(care)
    gust, tips, slides = (
        show(v, Dimension.SPEED, system) for v in (one.gust_m_s, one.tipping_gust_m_s, one.sliding_gust_m_s)
    )
    said = f'row "{one.row}": with its mix dry it tips from {tips} and slides from {slides}; {gust} was to stand'
    mend = "Water before a storm, gang containers together, or choose shorter plants."
    if one.ballast_kg > 0:
        mend = f"{_mass(one.ballast_kg, care)} of ballast low in each holds it against tipping. {mend}"
    return said, mend


def _some(names: tuple[str, ...]) -> str:
    more = f" and {len(names) - 3} more" if len(names) > 3 else ""
    return "; ".join(names[:3]) + more


def _system(care: Care) -> System:
    return System.METRIC if care.units == "metric" else System.US


def _mass(mass_kg: float, care: Care) -> str:
    return show(mass_kg, Dimension.MASS, _system(care))
