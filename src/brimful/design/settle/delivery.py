"""Settle how water gets into a container: feeder, then dripline or single emitters."""

import math

from brimful.catalog import Dripline, Emitter
from brimful.design.settle.notes import Desk, Path
from brimful.design.settle.settled import Delivery
from brimful.domains.hydraulics.assembly import Assembly, Feeder, SingleEmitters, Tube
from brimful.domains.hydraulics.assembly import Dripline as DriplineBody
from brimful.domains.hydraulics.emitters import CompensatingEmitter, EmitterLaw, MicrotubeEmitter, rated_emitter
from brimful.domains.hydraulics.water import VISCOSITY_20_C_M2_S
from brimful.plan import schema
from brimful.plan.schema import Containers, Zone

DRIPLINE = "quarter-6in-0.65gph"
FEEDER = "feeder-quarter-0.170"
FEEDER_SLACK_M = 0.6  # from the lateral to the container and round inside it: common practice, no source
LOOP_AT = 0.6  # a loop of dripline lies at this share of the mouth's radius: common practice, no source

Body = tuple[DriplineBody | SingleEmitters, str, str, float | None, float]
"""What emits, its key, what to call it, its length where it is bought by length, and its variation as made."""


def settle_delivery(
    desk: Desk, row: Containers, index: int, *, zone: Zone, lift_m: float, width_m: float
) -> Delivery | None:
    """The feeder and emission of one container of a row: the row's own choice, else the zone's, else the plan's."""
    plan, catalog, notes = desk.plan, desk.catalog, desk.notes
    body = _body(desk, (row, zone, plan.tubing), zone, index, width_m=width_m)
    given = row.feeder or zone.feeder or plan.tubing.feeder or schema.Feeder()
    word = given.tube
    tube = (
        notes.pick(catalog.tubing, word, desk.path_of("feeder", zone, index), "tube")
        if word
        else notes.usual(catalog.tubing, FEEDER, "tubing.feeder.tube", "feeder into each container")
    )
    length = given.length
    if length is None:
        length = round(lift_m + FEEDER_SLACK_M, 2)
        notes.assume(
            "tubing.feeder.length", "length of each feeder", "height of the mix above the lateral, and 0.6 m more"
        )
    if body is None or tube is None:
        return None
    made, key, words, bought, variation = body
    loss = catalog.fittings["barb-tee-branch"].loss_k + catalog.fittings["barb-coupling"].loss_k
    feeder = Feeder(Tube(tube.inner_diameter_m, tube.roughness_m, tube.key), length, loss)
    return Delivery(Assembly(feeder, made, lift_m), key, words, bought, tube.name, length, variation)


def _body(desk: Desk, givers: tuple[schema.Delivery, ...], zone: Zone, index: int, *, width_m: float) -> Body | None:
    """Dripline or single emitters, from the first of row, zone and plan that says."""
    path = desk.path_of("dripline", zone, index)
    for given in givers:
        if given.emitters is not None:
            return _emitters(given.emitters, desk.path_of("emitters", zone, index), desk)
        if given.dripline is not None:
            return _dripline(given.dripline, path, width_m, desk)
    return _dripline(schema.Dripline(), path, width_m, desk)


def _emitters(given: schema.Emitters, path: Path, desk: Desk) -> Body | None:
    catalog, notes = desk.catalog, desk.notes
    row = (
        notes.pick(catalog.emitters, given.type, path, "emitter")
        if given.type
        else notes.usual(catalog.emitters, "pc-1gph", "tubing.emitters.type", "emitter")
    )
    count = given.count
    if count is None:
        count = 4
        notes.assume("tubing.emitters.count", "emitters in each container", "4")
    return (
        None
        if row is None
        else (SingleEmitters(law_of(row), count), row.key, f"{count} × {row.name}", None, row.variation)
    )


def _dripline(given: schema.Dripline, path: Path, width_m: float, desk: Desk) -> Body | None:
    catalog, notes = desk.catalog, desk.notes
    row = (
        notes.pick(catalog.driplines, given.type, path, "dripline")
        if given.type
        else notes.usual(catalog.driplines, DRIPLINE, "tubing.dripline.type", "dripline in each container")
    )
    if row is None:
        return None
    loops = given.loops or 1
    length = given.length
    if length is None:
        length = loops_length_m(loops, width_m)
        said = f"{loops} loop{'s' if loops > 1 else ''} at {LOOP_AT} of the mouth's radius"
        notes.assume("tubing.dripline.loops", "dripline in each container", said)
    count = int(length / row.spacing_m + 1e-6)
    if count < 1:
        said = f"{length:.2f} m of dripline has no emitter; they are {row.spacing_m:.2f} m apart"
        notes.wrong("no-emitter", path, said, "Take a longer piece, or single emitters.")
        return None
    tube = Tube(row.inner_diameter_m, row.roughness_m, row.key)
    body = DriplineBody(tube, row.spacing_m, count, law_of(row), closed=given.ring)
    return body, row.key, row.name, length, row.variation


def loops_length_m(loops: int, width_m: float) -> float:
    """Length of so many loops of dripline in a mouth of this width."""
    return loops * math.pi * LOOP_AT * width_m


def law_of(row: Dripline | Emitter) -> EmitterLaw:
    """The law of an emitter from its rating in the catalogue."""
    if isinstance(row, Emitter) and row.law == "microtube":
        return MicrotubeEmitter(row.inner_diameter_m or 0.0, row.length_m or 0.0, VISCOSITY_20_C_M2_S)
    if row.law == "compensating":
        coefficient = row.flow_l_h / row.pressure_m**row.exponent
        return CompensatingEmitter(coefficient, row.exponent, row.start_m or 0.0, row.most_m)
    return rated_emitter(row.flow_l_h, row.pressure_m, exponent=row.exponent)
