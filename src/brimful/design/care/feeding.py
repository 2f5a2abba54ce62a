"""Stage: the feed plan: what to weigh, what goes in the tank on which day, coated feed, and the week's nitrogen."""

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path

from brimful.catalog import Feed
from brimful.design.care.desk import CareDesk
from brimful.design.care.mix_warmth import mix_temperatures_c
from brimful.design.care.model import CoatedWorked, FeedWorked, NitrogenWeek, NitrogenWorked, SolubleWorked, TankWorked
from brimful.design.care.water_weeks import WaterWeek, water_weeks
from brimful.design.model import RowWorked
from brimful.design.season.model import SeasonWorked
from brimful.design.settle import RowSpec
from brimful.domains.feeding.coated import (
    G_M2_PER_LB_1000_FT2,
    coated_dose,
    refeed_day,
    released_fractions,
)
from brimful.domains.feeding.conductivity import feed_ec_ms_cm
from brimful.domains.feeding.injector import STOCK_LIMIT_G_L, Ratio, dissolves, stock_g_l, weakest_ratio
from brimful.domains.feeding.nitrogen import WeekIn, WeekOut, nitrogen_balance, nitrogen_demand_g
from brimful.domains.feeding.schedule import DRENCH_PPM, WITH_COATED, Feeding, TankFill, tank_fill
from brimful.domains.feeding.soluble import (
    GALLON_L,
    OUNCE_G,
    feed_g_l,
    nitrogen_ppm,
    ounces_per_100_gallons,
    teaspoons_per_gallon,
)
from brimful.records import record

SOLUBLE, COATED = "soluble-20-10-20", "coated-15-9-12"
NONE = "none"
EVERY_DAYS, FIRST_DAYS, LAST_DAYS = 7, 14, 14  # weekly, two weeks after planting to two before frost: common practice
SOLUTION_SHARE = 0.05  # a drench of a twentieth of the mix's volume: common practice, no source
TOP_LAYER_M = 0.28  # 25 to 30 cm: common practice, no source
CAP_N_G_M2 = 6 * G_M2_PER_LB_1000_FT2  # 4 to 6 lb N/1000 sq ft a season (NC State Extension, read)
INJECTOR = 100.0
SHORT, WASTED = 0.25, 0.3  # shares of demand missing, of nitrogen washed out, from where it is said


@record
class Bag:
    """A feed as used: its key and name, nitrogen, and the rise of EC if it is known."""

    key: str
    name: str
    nitrogen_percent: float
    ec_rise_ms_cm: float | None


def feed_of(desk: CareDesk, folder: Path, season: SeasonWorked | None = None) -> FeedWorked | None:
    """The feed plan; None where the plan wants no feed at all."""
    coated, soluble = _coated_feed(desk), _soluble_bag(desk)
    if coated is None and soluble is None:
        return None
    warm = mix_temperatures_c(desk, folder) if coated is not None else ()
    doses = tuple(_dose(desk, row, coated, warm) for row, _ in desk.rows) if coated is not None else ()
    worked = _soluble(desk, soluble, with_coated=coated is not None) if soluble is not None else None
    tanks = _tanks(desk, worked) if worked is not None else ()
    nitrogen = tuple(
        _nitrogen(desk, row, water_weeks(desk, row, season), tanks, _released(doses, row)) for _, row in desk.rows
    )
    said = "the season's own weeks" if season is not None else "planting day and mid-season of the design, and between"
    return FeedWorked(worked, doses, tanks, nitrogen, said)


def _soluble_bag(desk: CareDesk) -> Bag | None:
    given, notes = desk.plan.feed, desk.notes
    if given.soluble == NONE:
        return None
    if given.label is not None:
        words = "-".join(f"{part:g}" for part in given.label)
        known = next((f for f in desk.catalog.feeds.values() if f.kind == "soluble" and f.key.endswith(words)), None)
        rise = given.ec_rise or (known.ec_rise_ms_cm if known else None)
        return Bag(known.key if known else f"soluble-{words}", f"soluble feed {words}", given.label[0], rise)
    row = _picked(desk, given.soluble, SOLUBLE, "soluble")
    if row is None:
        return None
    if given.soluble is None:
        notes.assume("feed.soluble", "soluble feed", row.name)
    return Bag(row.key, row.name, row.nitrogen_percent, given.ec_rise or row.ec_rise_ms_cm)


def _coated_feed(desk: CareDesk) -> Feed | None:
    given = desk.plan.feed.coated
    if given == NONE:
        return None
    row = _picked(desk, given, COATED, "coated")
    if row is not None and given is None:
        desk.notes.assume("feed.coated", "coated feed in the top layer", row.name)
    return row


def _picked(desk: CareDesk, word: str | None, usual: str, kind: str) -> Feed | None:
    if word is None:
        return desk.catalog.feeds[usual]
    found = desk.catalog.feeds.find(word)
    path = ("feed", kind)
    if isinstance(found, tuple) or found.kind != kind:
        known = ", ".join(row.key for row in desk.catalog.feeds.values() if row.kind == kind)
        said = f'no {kind} feed is called "{word[:60]}"'
        desk.notes.warn("unknown-feed", path, said, f'Known: {known}. Or give its label = "20-10-20"; "none" for none.')
        return None
    return found


def _soluble(desk: CareDesk, bag: Bag, *, with_coated: bool) -> SolubleWorked:
    given, at = desk.plan.feed, desk.ledger.at("care", "feed")
    ppm = given.ppm
    if ppm is None:
        ppm = DRENCH_PPM[0] * (WITH_COATED if with_coated else 1.0)
        desk.notes.assume("feed.ppm", "strength of the weekly feed", f"{ppm:g} ppm N")
    if given.injector is None:
        desk.notes.assume("feed.injector", "injector or tank", "1:100 of the finished solution")
    elif given.counts is None:
        desk.notes.assume("feed.counts", "what the injector's ratio counts", Ratio.OF_FINAL.value)
    ratio, means = given.injector or INJECTOR, Ratio.TO_WATER if given.counts == "water" else Ratio.OF_FINAL
    strength = at.work("strength_g_l", feed_g_l, nitrogen_ppm=ppm, nitrogen_percent=bag.nitrogen_percent)
    stock = at.work("stock_g_l", stock_g_l, strength_g_l=strength, ratio=ratio, convention=means)
    spoons = at.work("spoons_tsp_gal", teaspoons_per_gallon, strength_g_l=strength)
    most = at.work("weakest_ratio", weakest_ratio, strength_g_l=strength, convention=means)
    ec = None
    if given.water_ec is not None and bag.ec_rise_ms_cm is not None:
        ec = at.work(
            "solution_ec_ms_cm", feed_ec_ms_cm, water_ec_ms_cm=given.water_ec, nitrogen_ppm=ppm,
            rise_ms_cm_per_100_ppm=bag.ec_rise_ms_cm,
        )  # fmt: skip
    if not dissolves(stock):
        said = f"a stock of {stock:.0f} g/L was worked out; cold water dissolves about {STOCK_LIMIT_G_L:.0f} g/L"
        mend = f"Take 1:{most:.0f} or less, or a weaker feed." if most >= 1 else "No injector does this: feed weaker."
        desk.notes.warn("stock-too-strong", ("feed", "injector"), said, mend)
    return SolubleWorked(
        key=bag.key,
        feed=bag.name,
        nitrogen_percent=bag.nitrogen_percent,
        nitrogen_ppm=ppm,
        strength_g_l=strength,
        strength_oz_100gal=ounces_per_100_gallons(strength),
        spoons_tsp_gal=spoons.likely,
        spoons_low_tsp_gal=spoons.low,
        spoons_high_tsp_gal=spoons.high,
        ratio=ratio,
        ratio_means=means.value,
        stock_g_l=stock,
        stock_oz_gal=stock * GALLON_L / OUNCE_G,
        stock_limit_g_l=STOCK_LIMIT_G_L,
        dissolves=dissolves(stock),
        weakest_ratio=most,
        solution_ec_ms_cm=ec,
        made_up_n_ppm=nitrogen_ppm(strength, bag.nitrogen_percent),
    )


def _dose(desk: CareDesk, row: RowSpec, feed: Feed, warm: Sequence[float]) -> CoatedWorked:
    room = row.vessel.fill(row.headspace_m)
    top = room.volume_l(max(0.0, room.depth_m - TOP_LAYER_M), room.depth_m)
    rate = desk.plan.feed.rate or feed.rate_g_l or 0.0
    at = desk.ledger.at("care", "feed", row.name)
    dose = at.work(
        "coated_dose_g", coated_dose, top_layer_l=top, rate_g_l=rate, nitrogen_percent=feed.nitrogen_percent,
        surface_m2=room.area_m2(room.depth_m), cap_n_g_m2=CAP_N_G_M2,
    )  # fmt: skip
    share = at.work(
        "released_share", released_fractions, mix_temperatures_c=tuple(warm), rated_days=feed.rated_days,
        reference_c=feed.reference_c,
    )  # fmt: skip
    day = refeed_day(share)
    when = desk.planted + timedelta(days=day) if day is not None else None
    nitrogen = dose.mass_g * feed.nitrogen_percent / 100
    return CoatedWorked(
        row.name, row.count, feed.key, feed.name, dose.mass_g, dose.by_volume_g, dose.by_surface_g, nitrogen,
        feed.rated_days or 0.0, when if when is not None and when < desk.frost else None, tuple(share[6::7]),
    )  # fmt: skip


def feeding_days(desk: CareDesk) -> tuple[date, ...]:
    """The days of the soluble feed: weekly from two weeks after planting to two weeks before the season's end."""
    every = desk.plan.feed.every
    if every is None:
        every = EVERY_DAYS
        desk.notes.assume("feed.every", "days from one feeding to the next", f"{EVERY_DAYS}")
    first, last = desk.planted + timedelta(days=FIRST_DAYS), desk.frost - timedelta(days=LAST_DAYS)
    return tuple(first + timedelta(days=n) for n in range(0, max(0, (last - first).days + 1), every))


def _tanks(desk: CareDesk, soluble: SolubleWorked) -> tuple[TankWorked, ...]:
    """Each feeding of each zone: what to weigh and what goes in the tank."""
    means = Ratio.TO_WATER if desk.plan.feed.counts == "water" else Ratio.OF_FINAL
    if desk.plan.feed.each is None:
        desk.notes.assume("feed.each", "solution for each container", "a twentieth of its mix's volume")
    made = []
    for zone in desk.design.zones:
        rows = [row for row in desk.design.rows if row.zone == zone.name]
        count = sum(row.count for row in rows)
        litres = sum(row.count * solution_l(desk, row) for row in rows) / count
        feeding = Feeding(zone.name, 1, count, litres, soluble.nitrogen_ppm)
        at = desk.ledger.at("care", "feed", zone.name)
        fill: TankFill = at.work(
            "tank", tank_fill, feeding=feeding, nitrogen_percent=soluble.nitrogen_percent, ratio=soluble.ratio,
            convention=means,
        )  # fmt: skip
        made += [
            TankWorked(day, zone.name, count, fill.solution_l, soluble.nitrogen_ppm, fill.feed_g, fill.stock_l,
                       fill.nitrogen_g_each)
            for day in feeding_days(desk)
        ]  # fmt: skip
    return tuple(sorted(made, key=lambda tank: (tank.day, tank.zone)))


def solution_l(desk: CareDesk, row: RowWorked) -> float:
    """Solution that one container of a row gets at a feeding [L]: the plan's word, or a twentieth of its mix."""
    given: float | None = desk.plan.feed.each
    return given if given is not None else SOLUTION_SHARE * row.fill_volume_l


def _released(doses: Sequence[CoatedWorked], row: RowWorked) -> tuple[float, ...]:
    """Nitrogen let out in each week from one container's coated feed [g]."""
    dose = next((one for one in doses if one.row == row.name), None)
    if dose is None:
        return ()
    out = (0.0, *dose.released_weekly_share)
    return tuple(dose.nitrogen_g * (late - early) for early, late in pairwise(out))


def _nitrogen(
    desk: CareDesk, row: RowWorked, water: Sequence[WaterWeek], tanks: Sequence[TankWorked], released: Sequence[float]
) -> NitrogenWorked:
    held = max(row.water_held_l, 0.1)
    weeks = []
    for index, week in enumerate(water):
        last = week.first + timedelta(days=7)
        each = solution_l(desk, row)
        fed = sum(each * t.nitrogen_ppm for t in tanks if t.zone == row.zone and week.first <= t.day < last) / 1000
        out = released[index] if index < len(released) else 0.0
        weeks.append(WeekIn(out, fed, nitrogen_demand_g(week.used_l), week.drained_l, held))
    balance: tuple[WeekOut, ...] = desk.ledger.at("care", "feed", row.name).work(
        "nitrogen_weeks", nitrogen_balance, start_g=0.0, weeks=tuple(weeks)
    )
    shown = tuple(
        NitrogenWeek(
            week.first, out.released_g, out.fed_g, out.demand_g, out.taken_up_g, out.drained_g, out.stored_g,
            out.solution_ppm,
        )
        for week, out in zip(water, balance, strict=True)
    )  # fmt: skip
    short, drained = sum(out.short_g for out in balance), sum(out.drained_g for out in balance)
    return NitrogenWorked(row.name, shown, short, drained, _verdict(balance))


def _verdict(balance: Sequence[WeekOut]) -> str:
    """Whether the plan feeds too little or too much, in words."""
    wanted = sum(out.demand_g for out in balance)
    came = sum(out.released_g + out.fed_g for out in balance)
    if sum(out.short_g for out in balance) > SHORT * wanted:
        return "too little"
    if sum(out.drained_g for out in balance) + balance[-1].stored_g > WASTED * came:
        return "too much"
    return "about right"
