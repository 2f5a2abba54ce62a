"""Stage: one container in the hand: weights, lifting, ways to move it, wind at its lightest, load on what is under."""

from collections.abc import Sequence
from math import isfinite

from brimful.design.care.desk import CareDesk
from brimful.design.care.model import BagWorked, HandlingWorked
from brimful.design.model import RowWorked
from brimful.design.settle import RowSpec
from brimful.domains.handling.base_load import DEFER, base_load
from brimful.domains.handling.lift_factors import METRIC, US, Grip, LiftConstants, unmeasured_reach_m
from brimful.domains.handling.lifting import Hands, Lift, LiftLimit, lift_limit
from brimful.domains.handling.moving import AIDS, MovingAid, index_words, moving_advice
from brimful.domains.handling.wind import (
    CROWN_DRAG,
    SHELL_DRAG,
    WindBody,
    ballast_kg,
    sliding_speed_m_s,
    tipping_speed_m_s,
    wind_standing,
)

GUST_M_S = 20.0  # sheltered place, 25 to 30 exposed: common practice, no source
KNEE_M = 0.4  # hands at the lower part of a shell, from truck to pad: common practice, no source
BAG_WATER_KG_L = 0.2  # moist as sold: 2 cu ft weigh about 40 lb (common practice, no source)
GROUND = (Hands(0.4572, 0.1524, 30.0), Hands(0.381, 0.635))  # bag on the ground, up to the rim
BENCH = (Hands(0.381, 0.762), Hands(0.381, 1.016))  # bag on a bench or tailgate, over to the rim
CROWN_FILL = 0.785  # an ellipse within its box, geometry


def handling_of(desk: CareDesk) -> tuple[HandlingWorked, ...]:
    """Each row's container in the hand."""
    if desk.plan.site.gust is None:
        desk.notes.assume("site.gust", "gust to stand in", "20 m/s (45 mph), a sheltered place")
    return tuple(_row(desk, row, worked) for row, worked in desk.rows)


def aids_of(desk: CareDesk) -> Sequence[MovingAid]:
    """The aids that are there: those the crew names, or any that can be hired."""
    given = desk.plan.crew.equipment
    known = {aid.name for aid in AIDS}
    there = {name for name, count in given or () if count and name in known}
    return tuple(aid for aid in AIDS if aid.name in there) if there else AIDS


def constants_of(desk: CareDesk) -> LiftConstants:
    """The set of lifting constants of the plan's units."""
    return METRIC if desk.plan.units == "metric" else US


def lift_of_shell(desk: CareDesk, empty_kg: float, width_m: float) -> LiftLimit:
    """The lift of an empty container by one person, from truck to pad (NIOSH 94-110)."""
    constants = constants_of(desk)
    hands = Hands(unmeasured_reach_m(width_m, KNEE_M, constants=constants), KNEE_M)
    return lift_limit(Lift(empty_kg, hands, hands, grip=Grip.POOR), constants=constants)


def crown_of(row: RowSpec) -> WindBody | None:
    """What the wind catches above the rim: the tallest plant's height, as wide as the mouth and half the widest spread.

    Formula: ellipse of that width and height; its middle half way up.
    """
    if not row.plants:
        return None
    outside = row.vessel.outside
    height = max(spec.plant.height_max_m for spec in row.plants)
    width = max(outside.spans_m(outside.depth_m)) + max(spec.plant.spread_max_m for spec in row.plants) / 2
    woody = any(spec.plant.life == "shrub" for spec in row.plants)
    drag = CROWN_DRAG["evergreen" if woody else "leafy annuals"]
    return WindBody(drag, CROWN_FILL * width * height, outside.depth_m + height / 2)


def shell_body(row: RowSpec) -> WindBody:
    """The shell from the side, a trapezium: its area and the height of its middle."""
    outside = row.vessel.outside
    bottom, top = max(outside.spans_m(0.0)), max(outside.spans_m(outside.depth_m))
    middle = outside.depth_m / 3 * (bottom + 2 * top) / (bottom + top)
    return WindBody(SHELL_DRAG, outside.depth_m * (bottom + top) / 2, middle)


def _row(desk: CareDesk, row: RowSpec, worked: RowWorked) -> HandlingWorked:
    at = desk.ledger.at("care", "handling", row.name)
    outside = row.vessel.outside
    width = max(outside.spans_m(outside.depth_m))
    limit = lift_of_shell(desk, worked.weight_empty_kg, width)
    advice = at.work(
        "ways",
        moving_advice,
        empty_kg=worked.weight_empty_kg,
        planted_kg=max(worked.weight_saturated_kg, worked.weight_empty_kg),
        one_person_kg=limit.limit_kg,
        aids=aids_of(desk),
    )
    bodies = tuple(body for body in (shell_body(row), crown_of(row)) if body is not None)
    gust, base, dry = desk.plan.site.gust or GUST_M_S, outside.base_width_m, worked.weight_dry_kg
    standing = at.work("wind", wind_standing, speed_m_s=gust, bodies=bodies, mass_kg=dry, base_m=base)
    tips = at.work("tipping_gust_m_s", tipping_speed_m_s, bodies=bodies, mass_kg=dry, base_m=base, safety=1.0)
    slides = at.work("sliding_gust_m_s", sliding_speed_m_s, bodies=bodies, mass_kg=dry)
    load = at.work(
        "load", base_load, saturated_kg=worked.weight_saturated_kg, base_area_m2=max(outside.base_area_m2, 1e-4)
    )
    return HandlingWorked(
        row=row.name,
        empty_kg=worked.weight_empty_kg,
        dry_kg=dry,
        drained_kg=worked.weight_drained_kg,
        saturated_kg=worked.weight_saturated_kg,
        lift_limit_kg=limit.limit_kg,
        lift_index=limit.index if isfinite(limit.index) else None,
        lift_words=index_words(limit.index, limit.weakest),
        ways_empty=advice.empty,
        ways_planted=advice.planted,
        fill_in_place=advice.fill_in_place,
        times_heavier=advice.times_heavier,
        gust_m_s=gust,
        tipping_safety=standing.safety,
        tipping_gust_m_s=tips,
        sliding_gust_m_s=slides,
        stands=standing.stands(),
        ballast_kg=ballast_kg(standing, mass_kg=dry),
        base_area_m2=outside.base_area_m2,
        load_kg_m2=load.kg_m2,
        load_kpa=load.pressure_kpa,
        load_words=DEFER,
    )


def bags_of(desk: CareDesk) -> tuple[BagWorked, ...]:
    """Lifting each bag of mix: from the ground, and from a bench at knee to waist height."""
    mixes = {row.mix.key: row.mix for row in desk.settled.rows}
    constants, made = constants_of(desk), []
    for mix in mixes.values():
        mass = mix.bag_l * (mix.dry_bulk_density_kg_m3 / 1000 + BAG_WATER_KG_L)
        at = desk.ledger.at("care", "bags", mix.key)
        low, high = (
            at.work(
                figure,
                lift_limit,
                lift=Lift(mass, start, end, lifts_per_min=1.0, hours=1.0, grip=Grip.POOR),
                constants=constants,
            )
            for figure, (start, end) in (("lift_from_ground", GROUND), ("lift_from_bench", BENCH))
        )
        made.append(BagWorked(mix.name, mass, low.index, high.index, index_words(low.index, low.weakest)))
    return tuple(made)
