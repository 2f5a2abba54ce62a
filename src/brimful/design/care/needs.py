"""Take-off: every amount the job wants, from the worked design itself; fittings counted along the laid tube."""

from collections import Counter
from collections.abc import Iterator, Sequence

from brimful.design.care.desk import CareDesk
from brimful.design.care.model import SetOutWorked
from brimful.design.model import RowWorked
from brimful.design.plant_goods import item_of
from brimful.design.settle import RowSpec, ZoneSpec
from brimful.domains.hydraulics.zone import Zone as DripZone
from brimful.domains.takeoff.order import Need
from brimful.records import record

STAKE_EVERY_M = 1.0  # tube pinned about every 3 ft: common practice, no source
SUPPLY_KINDS = ("backflow", "filter", "meter")
"""What one tap has once, however many zones hang on it; a valve and a regulator belong to each zone."""


@record
class Joints:
    """Fittings along a zone's main and laterals, and the tube ends pushed on or into them."""

    tees: int
    crosses: int
    elbows: int
    feeder_tees: int
    end_plugs: int
    barbs: int


def container_needs(row: RowSpec, worked: RowWorked, key: str, count: int) -> Iterator[Need]:
    """What so many containers of a row take in themselves: shell, mix, plants."""
    yield Need(key, "container", count, "each", row.name, whole=True)
    yield Need(row.mix.key, "mix", count * worked.mix_to_buy_l, "l", row.name)
    for spec in row.plants:
        item = item_of(spec.plant.key, spec.root_ball)
        purpose = row.name if spec.colour is None else f"{row.name}: {count * spec.count} {spec.colour}"
        yield Need(item, "plant", count * spec.count, "each", purpose, whole=True)


def drip_needs(row: RowSpec, worked: RowWorked, count: int) -> Iterator[Need]:
    """The drip of so many containers of a row: feeder, dripline or emitters, staples, plugs, tees."""
    feeder = row.delivery.assembly.feeder
    if feeder is not None:
        yield Need(feeder.tube.name, "tube", count * row.delivery.feeder_length_m, "m", "feeders")
        yield Need("feeder-tee", "fitting", count, "each", "lateral to feeder", whole=True)
    if worked.tube is None:
        emitters = count * row.delivery.assembly.emitters
        yield Need(row.delivery.emission_key, "emitter", emitters, "each", row.name, whole=True)
        return
    yield Need(row.delivery.emission_key, "tube", count * worked.tube.dripline_cut_m, "m", "dripline")
    yield Need("staple", "stake", count * worked.tube.staples_count, "each", "dripline", whole=True)
    if worked.tube.end_plugs_count:
        yield Need("goof-plug", "plug", count * worked.tube.end_plugs_count, "each", "dripline", whole=True)
    else:
        yield Need("feeder-tee", "fitting", count, "each", "closing the ring", whole=True)


def joints_of(zone: DripZone) -> Joints:
    """Fittings of main and laterals, counted along the tube as it lies [count].

    Formula: where laterals leave the main: tee, cross for two; at the main's end elbow for one, tee for two.
    Feeders leave through a barbed tee in the wall; each lateral ends in a plug. Every arm of a tee, cross or elbow is
    a barb, and each barb takes a clamp.
    Args: zone: main and laterals with their stations
    Returns: [count]
    Valid: laterals that leave the main on either side of it, at most two at a place
    Source: counted from the network
    """
    places = Counter(round(lateral.at_m, 3) for lateral in zone.laterals)
    last = max(places, default=0.0)
    tees = crosses = elbows = 0
    for at_m, laterals in places.items():
        ways = laterals + (1 if at_m == last else 2)
        crosses += max(0, ways - 3)
        tees += ways >= 3
        elbows += ways == 2
    feeders = sum(station.assembly.feeder is not None for lateral in zone.laterals for station in lateral.stations)
    plugs = len(zone.laterals)
    return Joints(tees, crosses, elbows, feeders, plugs, 3 * tees + 4 * crosses + 2 * elbows + 1 + plugs)


def zone_needs(desk: CareDesk, spec: ZoneSpec) -> Iterator[Need]:
    """What a zone takes outside its containers: main, laterals, fittings, valve and regulator."""
    name, where = spec.name, f"zone {spec.name}"
    yield Need(spec.zone.main.tube.name, "tube", spec.main_length_m, "m", "main")
    length = spec.main_length_m
    for lateral in spec.zone.laterals:
        yield Need(lateral.tube.name, "tube", lateral.stations[-1].distance_m, "m", "laterals")
        length += lateral.stations[-1].distance_m
    joints = desk.ledger.at("care", "zones", name).work("joints_count", joints_of, zone=spec.zone)
    for key, count in (
        ("barb-tee-branch", joints.tees),
        ("barb-cross", joints.crosses),
        ("barb-elbow", joints.elbows),
        ("end-plug", joints.end_plugs),
        ("clamp", joints.barbs),
        ("thread-adapter", 1),
        ("stake", int(length // STAKE_EVERY_M) + 1),
    ):
        kind = {"end-plug": "plug", "clamp": "clamp", "stake": "stake"}.get(key, "fitting")
        if count:
            yield Need(key, kind, count, "each", where, whole=True)
    yield from _zone_devices(desk, spec)


def _zone_devices(desk: CareDesk, spec: ZoneSpec) -> Iterator[Need]:
    devices = desk.catalog.devices
    setting = spec.inlet.regulator.setting_m if spec.inlet.regulator else None
    for row in devices.values():
        same = setting is not None and row.setting_m is not None and abs(row.setting_m - setting) < 0.03 * setting
        if same:
            yield Need(row.key, "device", 1, "each", f"zone {spec.name}", whole=True)
            break
    else:
        yield Need(spec.regulator, "device", 1, "each", f"zone {spec.name}", whole=True)
    for device in spec.inlet.devices:
        found = devices.find(device.name)
        if not isinstance(found, tuple) and (found.kind not in SUPPLY_KINDS or spec.index == 0):
            yield Need(found.key, "device", 1, "each", "at the tap", whole=True)


def all_needs(desk: CareDesk, extra: Sequence[Need] = (), *, more: int = 0) -> tuple[Need, ...]:
    """Every amount of the whole job; with `more`, so many more containers on the largest row.

    Args: desk: the worked design. extra: pads, trench, gravel, feed. more: containers added.
    Returns: needs, in the order of the work.
    """
    needs: list[Need] = []
    for row, worked in desk.rows:
        count = row.count + (more if row is largest_row(desk) else 0)
        needs += container_needs(row, worked, container_key(desk, row), count)
    for row, worked in desk.rows:
        count = row.count + (more if row is largest_row(desk) else 0)
        needs += drip_needs(row, worked, count)
    for spec in desk.settled.zones:
        needs += zone_needs(desk, spec)
    if more:
        row = largest_row(desk)
        lateral = next(z.lateral for z in desk.settled.zones if z.name == row.zone)
        needs.append(Need(desk.tube_key(lateral), "tube", more * _apart_m(row), "m", "laterals"))
    return (*needs, *extra)


def largest_row(desk: CareDesk) -> RowSpec:
    """The row with the most containers: the one that "one more" joins."""
    return max(desk.settled.rows, key=lambda row: row.count)


def container_key(desk: CareDesk, row: RowSpec) -> str:
    """What the container is called in the price table, whatever the units: its type, or its own sizes in mm."""
    given = desk.plan.containers[row.index].container
    if given.type is not None:
        return given.type
    profile = [size for pair in given.diameters for size in pair]
    sizes = (given.top, given.top_width, given.bottom, given.bottom_width, given.height, *profile)
    return f"{given.shape}-{'x'.join(f'{1000 * size:.0f}' for size in sizes if size is not None)}-{row.material.key}"


def _apart_m(row: RowSpec) -> float:
    return row.stations_m[-1] - row.stations_m[-2] if row.count > 1 else row.stations_m[-1]


def ground_needs(desk: CareDesk, set_outs: Sequence[SetOutWorked]) -> Iterator[Need]:
    """Pads, trench and gravel, each only where the plan has it."""
    from brimful.design.care.ground import gravel_needs, pad_needs, trench_needs

    yield from pad_needs(desk, set_outs)
    yield from trench_needs(desk)
    yield from gravel_needs(desk)
