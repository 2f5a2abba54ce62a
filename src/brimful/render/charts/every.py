"""Every chart of a scene by the name of its file."""

from collections.abc import Iterator

from brimful.render.charts.bloom import bloom
from brimful.render.charts.budget import budget
from brimful.render.charts.costs import costs
from brimful.render.charts.crew import crew
from brimful.render.charts.flows import flows
from brimful.render.charts.hot_week import hot_week
from brimful.render.charts.nitrogen import nitrogen
from brimful.render.charts.season_water import season_water
from brimful.render.charts.sun_hours import sun_hours
from brimful.render.charts.vega import Spec
from brimful.render.charts.weekly_minutes import weekly_minutes
from brimful.render.drawings.scene import Scene


def every_chart(scene: Scene) -> Iterator[tuple[str, Spec]]:
    """Name and specification of each chart that has something to show."""
    for i, (_, zone) in enumerate(scene.zones, 1):
        if zone.flow_l_h > 0:
            yield f"zone-{i}-pressure", budget(zone, scene.system)
            yield f"zone-{i}-flow", flows(zone, scene.system)
    for name, chart in (*_season(scene), ("bloom", bloom(scene)), *_care(scene)):
        if chart is not None:
            yield name, chart


def _season(scene: Scene) -> Iterator[tuple[str, Spec | None]]:
    season = scene.season
    if season is None:
        return
    for i, zone in enumerate(season.zones, 1):
        yield f"season-{i}-minutes", weekly_minutes(zone)
        yield f"season-{i}-water", season_water(season, zone, scene.system)
        yield f"season-{i}-hot-week", hot_week(season, zone.hot_week, scene.system) if zone.hot_week else None
    if season.sun:
        yield "sun", sun_hours(season)


def _care(scene: Scene) -> Iterator[tuple[str, Spec | None]]:
    care = scene.care
    if care is None:
        return
    if care.order is not None:
        yield "cost", costs(care.order)
    if care.build is not None:
        yield "crew", crew(care.build)
    for i, one in enumerate(care.feed.nitrogen if care.feed else (), 1):
        yield f"nitrogen-{i}", nitrogen(one)
