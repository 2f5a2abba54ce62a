"""Build and care, part by part, in order."""

from collections.abc import Collection
from pathlib import Path

from brimful.design.care.build import build_of
from brimful.design.care.desk import CareDesk
from brimful.design.care.feeding import feed_of
from brimful.design.care.handling import bags_of, handling_of
from brimful.design.care.model import Care, CutTubeWorked, FeedWorked, OrderWorked
from brimful.design.care.needs import ground_needs
from brimful.design.care.order import order_of
from brimful.design.care.setout import set_outs_of
from brimful.design.care.tasks import tasks_of
from brimful.design.season.model import SeasonWorked
from brimful.domains.takeoff.order import Need

PARTS = ("shop", "work", "feed")


def care_of(
    desk: CareDesk,
    *,
    folder: Path,
    parts: Collection[str] = PARTS,
    plan_name: str = "plan",
    season: SeasonWorked | None = None,
) -> Care:
    """Build and care of a worked design, as far as `parts` asks; findings and assumptions stand in the desk's notes.

    Args: desk: what lies on it. folder: where the weather file stands. parts: "shop", "work", "feed".
        plan_name: lasting name of the plan, for the identifiers of its calendar.
        season: its weeks of water, where there is weather.
    """
    shop, work, feeding = (part in parts for part in PARTS)
    set_outs = set_outs_of(desk)
    feed = feed_of(desk, folder, season)
    order: OrderWorked | None = None
    cuts: tuple[CutTubeWorked, ...] = ()
    if shop:
        order, cuts = order_of(desk, (*ground_needs(desk, set_outs), *feed_needs(feed)))
    return Care(
        desk.design.title,
        desk.design.units,
        order,
        cuts,
        set_outs if work else (),
        handling_of(desk) if work else (),
        bags_of(desk) if work else (),
        build_of(desk) if work else None,
        tasks_of(desk, feed, plan_name) if work else None,
        feed if feeding else None,
        tuple(desk.notes.assumptions.values()),
        tuple(desk.notes.findings),
    )


def feed_needs(feed: FeedWorked | None) -> tuple[Need, ...]:
    """The season's feed in kilograms."""
    if feed is None:
        return ()
    coated: dict[str, float] = {}
    for one in feed.coated:
        coated[one.key] = coated.get(one.key, 0.0) + one.containers_count * one.dose_g / 1000
    needs = [Need(key, "feed", mass, "kg", "coated, in the top layer") for key, mass in coated.items()]
    if feed.soluble is not None and feed.tanks:
        mass = sum(tank.feed_g for tank in feed.tanks) / 1000
        needs.append(Need(feed.soluble.key, "feed", mass, "kg", "the season's feedings"))
    return tuple(needs)
