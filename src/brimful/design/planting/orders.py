"""The plants to order with their dates, when each kind may be planted, and how long it stands."""

from datetime import date, timedelta

from brimful.catalog import RootBall
from brimful.design.plant_goods import item_of, plant_price, plant_spare, plants_a_pack, plants_to_buy
from brimful.design.planting.desk import PlantingDesk
from brimful.design.planting.model import OrderWorked, WindowWorked
from brimful.design.planting.words import in_units
from brimful.design.settle import PlantSpec
from brimful.design.settle.planting import taxon_of
from brimful.domains.planting.order import (
    MIX_C,
    TrayOrder,
    Window,
    first_warm_mix,
    hardiness_class,
    kind_of_good,
    order_dates,
    planting_window,
    tray_order,
)

MIX_FROM_DAYS = 75
"""So long before the last frost the mix is looked at first: before the hardiest class goes out."""


def needed_of(desk: PlantingDesk) -> dict[tuple[str, RootBall], int]:
    """Plants of each taxon and size in all containers, of every colour."""
    needed: dict[tuple[str, RootBall], int] = {}
    for row in desk.settled.rows:
        for spec in row.plants:
            key = (spec.plant.key, spec.root_ball)
            needed[key] = needed.get(key, 0) + spec.count * row.count
    return needed


def _colours(desk: PlantingDesk, plant: str, ball: RootBall) -> tuple[str, ...]:
    """How many of each colour the plan names, as "72 pink"."""
    counts: dict[str, int] = {}
    for row in desk.settled.rows:
        for spec in row.plants:
            if (spec.plant.key, spec.root_ball) == (plant, ball) and spec.colour is not None:
                counts[spec.colour] = counts.get(spec.colour, 0) + spec.count * row.count
    return tuple(f"{count} {colour}" for colour, count in counts.items())


def orders_of(desk: PlantingDesk) -> tuple[OrderWorked, ...]:
    """Each taxon and size in whole trays, with the dates that hang on planting day."""
    orders = tuple(_order(desk, plant, ball, count) for (plant, ball), count in needed_of(desk).items())
    late = [one for one in orders if desk.today is not None and one.order_by < desk.today.isoformat() < one.planting]
    if late:
        names = ", ".join(dict.fromkeys(one.plant for one in late))
        said = f"the last day to have plants grown to order is past: {names}"
        desk.notes.note(
            "order-late", ("containers",), said, "Ask what the nursery has in stock, and swap what it lacks."
        )
    return orders


def order_cost(desk: PlantingDesk, plant: str, ball: RootBall, count: int) -> float | None:
    """What so many plants cost in whole trays after spares and stock; None where no price is known in the plan's
    currency."""
    item = item_of(plant, ball)
    row = plant_price(desk.catalog, item)
    if row is None or row.currency not in ("", desk.plan.currency):
        return None
    return row.price * _bought(desk, plant, ball, count)[1].ordered


def windows_of(desk: PlantingDesk) -> tuple[WindowWorked, ...]:
    """When each taxon may be planted by frost and mix, and how long it stands; planting too early is noted."""
    plants = {spec.plant.key: spec for row in desk.settled.rows for spec in row.plants}
    found = tuple(_window(desk, spec) for spec in plants.values())
    _tell_early(desk, found)
    return found


def _order(desk: PlantingDesk, plant: str, ball: RootBall, count: int) -> OrderWorked:
    pack, bought = _bought(desk, plant, ball, count)
    lead = kind_of_good(taxon_of(PlantSpec(desk.plants[plant], 1, ball)), ball.volume_l)
    dates = order_dates(desk.planted, lead)
    return OrderWorked(
        plant,
        ball.name,
        _colours(desk, plant, ball),
        count,
        pack,
        bought.trays,
        bought.ordered,
        order_cost(desk, plant, ball, count),
        lead,
        dates.order_from.isoformat(),
        dates.order_by.isoformat(),
        "" if dates.hardening is None else dates.hardening.isoformat(),
        dates.planting.isoformat(),
    )


def _bought(desk: PlantingDesk, plant: str, ball: RootBall, count: int) -> tuple[int, TrayOrder]:
    """Plants bought at once, and how often."""
    item = item_of(plant, ball)
    spare, on_hand = plant_spare(desk.plan.spares, ball), desk.on_hand.get(item, 0.0)
    pack = plants_a_pack(desk.catalog, item, plants_to_buy(count, spare, on_hand))
    return pack, desk.ledger.at("orders", item).work(
        "tray_order", tray_order, needed=count, per_tray=pack, spare=spare, on_hand=int(on_hand)
    )


def _window(desk: PlantingDesk, spec: PlantSpec) -> WindowWorked:
    taxon, days = taxon_of(spec), desk.days
    hardiness = hardiness_class(taxon)
    window = _spring_window(desk, hardiness)
    ends = days.ends_on(taxon.min_temp_damage_c)
    first, last, held = ("", "", "") if window is None else (*map(str, (window.first, window.last)), window.held_by)
    ending = "" if ends is None else ends.isoformat()
    return WindowWorked(taxon.key, hardiness, first, last, held, MIX_C[hardiness], taxon.min_temp_damage_c, ending)


def _spring_window(desk: PlantingDesk, hardiness: str) -> Window | None:
    """The good days of a frost class; None where spring's dates do not apply, or nothing is known to tell them by."""
    days = desk.days
    ready = None if days.in_autumn else _mix_ready(desk, hardiness)
    if days.in_autumn or (days.last_frost is None and ready is None):
        return None
    last = None if days.last_frost is None else days.last_frost
    return desk.ledger.at("planting", "window").work(
        hardiness, planting_window, hardiness=hardiness, last_frost=last, mix_ready=ready
    )


def _mix_ready(desk: PlantingDesk, hardiness: str) -> date | None:
    days = desk.days
    if not days.known:
        return None
    start = (days.last_frost or days.planted) - timedelta(days=MIX_FROM_DAYS)
    when = [start + timedelta(days=n) for n in range(366 // 2)]
    return first_warm_mix(hardiness, when, [days.mix_c[(day - days.planted).days % 366] for day in when])


def _tell_early(desk: PlantingDesk, windows: tuple[WindowWorked, ...]) -> None:
    """Plants whose good days begin only after planting day, told once for each such day."""
    early: dict[tuple[str, str, str], list[WindowWorked]] = {}
    for one in windows:
        if one.plant_from > desk.planted.isoformat():
            early.setdefault((one.hardiness, one.plant_from, one.held_by), []).append(one)
    for (hardiness, first, held), group in early.items():
        names, day = ", ".join(desk.plants[one.plant].common_name for one in group), _said(date.fromisoformat(first))
        if held == "frost":
            said = f"{names}: {hardiness} plants go out from {day} on, by frost; planned is {_said(desk.planted)}"
            desk.notes.warn("planted-early", ("site", "planting_day"), said, f"Plant from {day} on, or cover on frost.")
        else:
            least = f"{group[0].mix_least_c:g} °C"
            said = f"{names}: the mix holds {least} only from {day} on; planned is {_said(desk.planted)}"
            said = in_units(said, desk.plan.units)
            mend = "They stand still in cold mix: plant the hardier ones first, these later."
            desk.notes.note("mix-cold", ("site", "planting_day"), said, mend)


def _said(day: date) -> str:
    """A day as a person says it."""
    return f"{day.day} {day:%B}"
