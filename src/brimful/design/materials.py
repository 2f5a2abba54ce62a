"""Stage: what to have before the day, rounded once over the whole job."""

from collections import Counter, defaultdict

from brimful.design.ledger import Ledger
from brimful.design.model import Material, RowWorked, TubeWorked
from brimful.design.settle import Settled
from brimful.domains.container import bags


def materials_of(
    settled: Settled, rows: tuple[RowWorked, ...], tubes: tuple[TubeWorked | None, ...], ledger: Ledger
) -> tuple[Material, ...]:
    """Mix in bags, plants by taxon and size, tube by kind."""
    tube = _tube(settled, tubes)
    return (*_containers(settled), *_mix(settled, rows, ledger), *_plants(settled), *tube, *_parts(settled))


def _containers(settled: Settled) -> list[Material]:
    counts: Counter[str] = Counter()
    for row in settled.rows:
        counts[row.container] += row.count
    return [Material("container", what, count=n) for what, n in counts.items()]


def _mix(settled: Settled, rows: tuple[RowWorked, ...], ledger: Ledger) -> list[Material]:
    loose: dict[str, float] = defaultdict(float)
    for row in rows:
        loose[row.mix] += row.count * row.mix_to_buy_l
    sizes = {row.mix.name: row.mix.bag_l for row in settled.rows}
    made = []
    for name, volume in loose.items():
        count = ledger.at("materials", name).work("bags", bags, volume_l=volume, bag_l=sizes[name])
        made.append(Material("mix", name, volume_l=volume, pack_l=sizes[name], count=count))
    return made


def _plants(settled: Settled) -> list[Material]:
    counts: Counter[tuple[str, str]] = Counter()
    for row in settled.rows:
        for spec in row.plants:
            counts[spec.plant.common_name, spec.root_ball.name] += row.count * spec.count
    return [Material("plants", f"{name}, {size}", count=n) for (name, size), n in counts.items()]


def _tube(settled: Settled, tubes: tuple[TubeWorked | None, ...]) -> list[Material]:
    """Lengths to lay, without offcuts; dripline with the slack it is cut with."""
    lengths: dict[tuple[str, str], float] = defaultdict(float)
    for zone in settled.zones:
        lengths["main", zone.main] += zone.main_length_m
    lateral_of = {zone.name: zone.lateral for zone in settled.zones}
    for row, tube in zip(settled.rows, tubes, strict=True):
        lengths["lateral", lateral_of[row.zone]] += row.stations_m[-1]
        lengths["feeder", row.delivery.feeder] += row.count * row.delivery.feeder_length_m
        if tube is not None:
            lengths["dripline", row.delivery.emission] += row.count * tube.dripline_cut_m
    return [Material(what, name, length_m=length) for (what, name), length in lengths.items()]


def _parts(settled: Settled) -> list[Material]:
    counts: Counter[tuple[str, str]] = Counter()
    for zone in settled.zones:
        counts["regulator", zone.regulator] += 1
        counts["end plug", "for each lateral"] += len(zone.rows)
    for row in settled.rows:
        if row.delivery.emission_length_m is not None:
            counts["end plug", "for each dripline"] += row.count
        else:
            each = row.delivery.assembly.body.emitters
            counts["emitters", row.delivery.emission.removeprefix(f"{each} × ")] += each * row.count
        counts["tee", "lateral to feeder"] += row.count
    return [Material(what, name, count=n) for (what, name), n in counts.items()]
