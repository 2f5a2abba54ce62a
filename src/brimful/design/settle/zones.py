"""Settle the zones: supply, devices, regulator, main and laterals."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from brimful.catalog import Catalog
from brimful.design.settle.notes import Desk, Notes, Path
from brimful.design.settle.settled import RowSpec, ZoneSpec
from brimful.domains.hydraulics.assembly import Tube
from brimful.domains.hydraulics.inlet import REGULATOR_MARGIN_M, Device, Inlet, Regulator
from brimful.domains.hydraulics.pipe import Water
from brimful.domains.hydraulics.supply import BucketTest, SupplyCurve, supply_curve
from brimful.domains.hydraulics.zone import Lateral, Main, Station
from brimful.domains.hydraulics.zone import Zone as DripZone
from brimful.plan.schema import Plan, Zone
from brimful.plan.schema import Tube as TubeGiven
from brimful.quantities import Dimension, System, show

MAIN, LATERAL, MAIN_LENGTH_M = "pe-three-quarter-0.818", "pe-half-0.600", 3.0
DEVICES = ("hose-vacuum-breaker", "screen-filter-150", "hose-timer")
STATIC_M = 28.1  # 40 psi: municipal supplies run at 30 to 60 psi (program guide, read)
REGULATOR_M = 17.577  # 25 psi
SAME_SETTING = 0.03


def settle_zones(desk: Desk, rows: Sequence[RowSpec], water: Water) -> Iterator[ZoneSpec]:
    """Each zone of the plan with the rows in it; a zone with nothing in it is an error."""
    plan, notes = desk.plan, desk.notes
    supply, devices = _supply(plan, notes), _devices(desk)
    for index, zone in enumerate(plan.zone or (Zone(name="zone 1"),)):
        mine = [row for row in rows if row.zone == zone.name]
        path: Path = ("zone", index)
        if not mine and not any(c.zone in (zone.name, None) for c in plan.containers):
            notes.wrong(
                "nothing-in-zone", path, f'zone "{zone.name}" has no container', "Name it in a row, or take it out."
            )
        if mine and supply is not None:
            spec = _zone(desk, zone, index, mine=mine, inlet=Inlet(supply, devices), water=water)
            if spec is not None:
                yield spec


def _zone(desk: Desk, zone: Zone, index: int, *, mine: list[RowSpec], inlet: Inlet, water: Water) -> ZoneSpec | None:
    plan, catalog, notes = desk.plan, desk.catalog, desk.notes
    given = main_of(plan, zone)
    main = (
        notes.pick(catalog.tubing, given.tube, desk.path_of("main", zone), "tube")
        if given.tube
        else notes.usual(catalog.tubing, MAIN, "tubing.main.tube", "main from tap to rows")
    )
    word = zone.lateral or plan.tubing.lateral
    lateral = (
        notes.pick(catalog.tubing, word, desk.path_of("lateral", zone), "tube")
        if word
        else notes.usual(catalog.tubing, LATERAL, "tubing.lateral", "lateral along each row")
    )
    length = given.length
    if length is None:
        length = MAIN_LENGTH_M
        notes.assume("tubing.main.length", "length of the main from the tap", "3 m")
    if main is None or lateral is None:
        return None
    regulator, words = _regulator(desk, zone)
    along = Tube(lateral.inner_diameter_m, lateral.roughness_m, lateral.key)
    for row in mine:
        if (row.leaves_main_at_m or 0.0) > length:
            said = f'row "{row.name}" leaves the main at {row.leaves_main_at_m:.3g} m; the main is {length:.3g} m long'
            notes.wrong("beyond-the-main", ("containers", row.index, "leaves_main_at"), said, "Lengthen the main.")
    laterals = tuple(
        _lateral(row, along, length if row.leaves_main_at_m is None else row.leaves_main_at_m, catalog) for row in mine
    )
    trunk = Main(
        Tube(main.inner_diameter_m, main.roughness_m, main.key),
        given.rise or 0.0,
        catalog.fittings["barb-elbow"].loss_k,
    )
    drip = DripZone(zone.name, trunk, laterals, water=water)
    inlet = replace(inlet, regulator=regulator)
    names = tuple(row.name for row in mine)
    return ZoneSpec(index, zone.name, names, drip, inlet, words, main.name, length, lateral.name)


def _lateral(row: RowSpec, tube: Tube, at_m: float, catalog: Catalog) -> Lateral:
    stations = tuple(
        Station(container, distance, row.delivery.assembly, elevation)
        for container, distance, elevation in zip(row.ids, row.stations_m, row.elevations_m, strict=True)
    )
    fittings = catalog.fittings
    return Lateral(row.name, tube, stations, at_m, fittings["barb-tee-branch"].loss_k, fittings["tee-run"].loss_k)


def _regulator(desk: Desk, zone: Zone) -> tuple[Regulator, str]:
    plan, catalog, notes = desk.plan, desk.catalog, desk.notes
    setting = zone.regulator or plan.tubing.regulator
    if setting is None:
        setting = REGULATOR_M
        notes.assume("tubing.regulator", "pressure regulator", "25 psi (17.6 m of water)")
    system = System.METRIC if plan.units == "metric" else System.US
    words = f"regulator {show(setting, Dimension.PRESSURE, system)}"
    for row in catalog.devices.values():
        if row.setting_m is not None and abs(row.setting_m - setting) < SAME_SETTING * setting:
            return Regulator(setting, row.loss_m or REGULATOR_MARGIN_M, row.least_flow_l_h), words
    return Regulator(setting), words


def _devices(desk: Desk) -> tuple[Device, ...]:
    plan, catalog, notes = desk.plan, desk.catalog, desk.notes
    keys = plan.supply.devices
    if keys is None:
        keys = DEVICES
        names = ", ".join(catalog.devices[key].name for key in keys)
        source = "common practice, no source; the local plumbing code decides on backflow"
        notes.assume("supply.devices", "between tap and main", names, source)
    found = (notes.pick(catalog.devices, key, ("supply", "devices", i), "device") for i, key in enumerate(keys))
    return tuple(
        Device(d.name, per_square=d.loss_m / d.loss_flow_l_h**2) for d in found if d is not None and d.setting_m is None
    )


def _supply(plan: Plan, notes: Notes) -> SupplyCurve | None:
    given = plan.supply
    static = given.pressure
    if static is None and not any(test.pressure_m for test in given.bucket_tests):
        static = STATIC_M
        notes.assume(
            "supply.pressure", "static pressure at the tap", "40 psi (28.1 m)", "municipal 30 to 60 psi (read)"
        )
    tests = [BucketTest(test.flow_l_h, test.pressure_m or 0.0) for test in given.bucket_tests]
    if not tests:
        said = "no bucket test: whether the tap carries this cannot be said"
        notes.warn("supply-untested", ("supply",), said, 'Time a bucket: bucket_tests = ["5 gal in 45 s at 30 psi"].')
    elif all(test.pressure_m is None for test in given.bucket_tests):
        said = "the bucket test names no pressure; a wide-open tap has almost none, so the supply is extrapolated"
        notes.warn(
            "supply-wide-open",
            ("supply", "bucket_tests"),
            said,
            "Throttle until the gauge shows working pressure, then time it.",
        )
    try:
        return supply_curve(tests, static)
    except ValueError as error:
        notes.wrong("supply-contradiction", ("supply",), f"the supply contradicts itself: {error}", "Measure again.")
        return None


def main_of(plan: Plan, zone: Zone) -> TubeGiven:
    """The zone's main, with what it leaves open from the plan's."""
    base, own = plan.tubing.main or TubeGiven(), zone.main
    return base if own is None else base.model_copy(update={key: getattr(own, key) for key in own.model_fields_set})
