"""What a page speaks of: all rows and zones, or those of the one container that is chosen."""

from brimful.design.model import ContainerWater, RunTimeWorked, ZoneWorked
from brimful.records import record
from brimful.render.drawings.scene import RowSeen, Scene
from brimful.web.leaf import Asked


@record
class Chosen:
    """The rows and zones a page speaks of, with the numbers they have in the plan; `one` is a container or ""."""

    one: str
    rows: tuple[tuple[int, RowSeen], ...]
    zones: tuple[tuple[int, ZoneWorked], ...]

    @property
    def row_names(self) -> tuple[str, ...]:
        """Names of the rows spoken of."""
        return tuple(row.spec.name for _, row in self.rows)

    @property
    def zone_names(self) -> tuple[str, ...]:
        """Names of the zones spoken of."""
        return tuple(zone.name for _, zone in self.zones)


def chosen_of(scene: Scene, asked: Asked) -> Chosen:
    """All of a scene, or what belongs to the container asked for."""
    one = asked.container
    rows = tuple((i, row) for i, row in enumerate(scene.rows, 1) if not one or one in row.spec.ids)
    names = {row.worked.zone for _, row in rows}
    zones = tuple((i, zone) for i, (_, zone) in enumerate(scene.zones, 1) if zone.name in names)
    return Chosen(one, rows, zones)


def is_container(scene: Scene, name: str) -> bool:
    """Whether a container has this name."""
    return any(name in row.spec.ids for row in scene.rows)


@record
class Share:
    """What one container gets on a day against what it should get; None where no water arrives."""

    water: ContainerWater
    gets_l_day: float
    should_get_l_day: float

    @property
    def share(self) -> float:
        """1 is just enough, more drains away."""
        return self.gets_l_day / self.should_get_l_day if self.should_get_l_day > 0 else 1.0


def shares_of(zone: ZoneWorked, time: RunTimeWorked | None) -> tuple[Share, ...]:
    """Each container of a zone at a run time; nothing where the zone is not run."""
    if time is None:
        return ()
    should = {row.row: row.should_get_l_day for row in time.rows}
    day_h = time.minutes_per_day / 60
    return tuple(Share(one, one.flow_l_h * day_h, should.get(one.row, 0.0)) for one in zone.containers)


def peak_of(zone: ZoneWorked) -> RunTimeWorked | None:
    """The run time of the hottest days."""
    return next((time for time in zone.run_times if time.occasion == "peak"), None)
