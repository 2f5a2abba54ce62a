"""Stage: each row's container: room for mix, weights, water that the mix holds."""

from brimful.design.ledger import Ledger
from brimful.design.model import PlantedTaxon, RowWorked
from brimful.design.settle import RowSpec
from brimful.domains.container import Shape, Water, mix_to_buy_l, planted_weights, root_ball_l, shell_kg
from brimful.domains.substrate import Retention, Store, container_store

BALL_KG_L = 0.55  # a moist root ball with its plant: 0.7 to 1 lb for a 4 in annual (common practice, no source)


def containers_of(rows: tuple[RowSpec, ...], ledger: Ledger) -> tuple[RowWorked, ...]:
    """Geometry, weights and store of one container of each row; demands follow in their own stage."""
    return tuple(_row(row, ledger.at("rows", row.name)) for row in rows)


def fill_volume_l(room: Shape) -> float:
    """Room for mix in one container, in litres.

    Formula: exact integral of the inside cross-section from the floor up to the fill line.
    Args: room: the inside shape between floor and fill line
    Returns: [L]
    Valid: any shape of container
    Source: geometry of frusta, prismoids and caps
    """
    return room.volume_l()


def _row(row: RowSpec, ledger: Ledger) -> RowWorked:
    room = row.vessel.fill(row.headspace_m)
    volume = ledger.work("fill_volume_l", fill_volume_l, room=room)
    store = ledger.work("water_held_l", _store, mix=row.mix.retention, room=room)
    balls = {
        s.plant.key: ledger.work(f"root_ball_l {s.plant.key}", root_ball_l, pot_volume_l=s.root_ball.volume_l)
        for s in row.plants
    }
    planted = sum(balls[s.plant.key] * s.count for s in row.plants)
    buy = ledger.work("mix_to_buy_l", mix_to_buy_l, fill_volumes_l=(volume,), root_balls_l=planted)
    empty = row.weight_kg or ledger.work(
        "weight_empty_kg", shell_kg, shell_volume_l=row.vessel.shell_volume_l, density_kg_m3=row.material.density_kg_m3
    )
    full = store.saturated_l + row.vessel.reservoir_volume_l
    weights = ledger.work(
        "weight_saturated_kg",
        planted_weights,
        empty_kg=empty,
        mix_volume_l=max(volume - planted, 0.0),
        bulk_kg_l=row.mix.dry_bulk_density_kg_m3 / 1000,
        water_l=Water(row.mix.theta_r * volume, store.held_l, full),
        others_kg=planted * BALL_KG_L,
    )
    plants = tuple(
        PlantedTaxon(s.plant.key, s.plant.common_name, s.count, s.plant.water_use, balls[s.plant.key])
        for s in row.plants
    )
    return RowWorked(
        name=row.name,
        zone=row.zone,
        count=row.count,
        container=row.container,
        mouth_area_m2=row.vessel.inside.mouth_area_m2,
        inside_depth_m=row.vessel.inside.depth_m,
        fill_depth_m=room.depth_m,
        fill_volume_l=volume,
        mix=row.mix.name,
        mix_to_buy_l=buy,
        weight_empty_kg=weights.empty_kg,
        weight_dry_kg=weights.dry_kg,
        weight_drained_kg=weights.drained_kg,
        weight_saturated_kg=weights.saturated_kg,
        water_held_l=store.held_l,
        air_share=store.air_share,
        easily_available_l=store.easily_available_l,
        reserve_l=store.reserve_l,
        plants=plants,
        demands=(),
    )


def _store(mix: Retention, room: Shape) -> Store:
    return container_store(mix, room.area_m2, room.depth_m, breaks_m=room.breaks_m)


_store.__doc__ = container_store.__doc__
