"""Charts carry the design's own numbers, and print without a script or an address."""

from datetime import date
from xml.etree import ElementTree

import pytest

from brimful.quantities import Dimension, System, in_unit
from brimful.render.charts.bloom import bloom
from brimful.render.charts.budget import budget
from brimful.render.charts.costs import costs
from brimful.render.charts.every import every_chart
from brimful.render.charts.flows import flows
from brimful.render.charts.nitrogen import nitrogen
from brimful.render.charts.season_water import season_water
from brimful.render.charts.vega import Spec, printed
from brimful.render.charts.weekly_minutes import weekly_minutes
from brimful.render.drawings.scene import Scene
from brimful.render.drawings.svg import folded, text_width
from brimful.services import example, see


@pytest.fixture(scope="module")
def scene() -> Scene:
    """The demo, whole."""
    found = see(example("alder_point_landing"), today=date(2026, 1, 1)).scene
    assert found is not None
    return found


def values(chart: Spec, field: str) -> list[float]:
    """What a chart plots in one field."""
    return [row[field] for row in chart["data"]["values"]]


def test_the_budget_adds_up_to_what_the_tap_has(scene: Scene) -> None:
    """Everything taken on the way and what is left make the static pressure."""
    zone = scene.zones[0][1]
    chart = budget(zone, System.METRIC)
    left = in_unit(zone.least_head_m, Dimension.PRESSURE, System.METRIC)
    assert sum(values(chart, "takes")) + left == pytest.approx(
        in_unit(zone.static_head_m, Dimension.PRESSURE, System.METRIC)
    )


def test_flows_are_each_containers_own(scene: Scene) -> None:
    """In metric the chart holds litres an hour as the design does, container by container."""
    zone = scene.zones[0][1]
    chart = flows(zone, System.METRIC)
    assert values(chart, "flow") == pytest.approx([c.flow_l_h for c in zone.containers])
    assert values(chart, "number")[:12] == list(range(1, 13))


def test_weeks_are_the_seasons(scene: Scene) -> None:
    """Minutes are starts times minutes; water is the zone's litres."""
    season = scene.season
    assert season is not None
    zone = season.zones[0]
    minutes = [w.starts_per_day_count * w.minutes_per_start for w in zone.weeks]
    assert values(weekly_minutes(zone), "minutes") == minutes
    assert values(season_water(season, zone, System.METRIC), "water") == pytest.approx([w.zone_l for w in zone.weeks])


def test_bloom_is_the_plants_months(scene: Scene) -> None:
    """Each taxon has as many squares as its months of bloom that fall in the season."""
    chart = bloom(scene)
    assert chart is not None
    for letter, taxon in scene.letters.items():
        drawn = [row for row in chart["data"]["values"] if row["plant"].startswith(f"{letter} ")]
        first, last = taxon.bloom_start_month, taxon.bloom_end_month
        assert first is not None and last is not None
        assert len(drawn) == len([m for m in range(first, last + 1) if 5 <= m <= 10])


def test_costs_and_nitrogen_are_the_reports(scene: Scene) -> None:
    """Groups add up to the order's total; nitrogen is gram for gram."""
    care = scene.care
    assert care is not None and care.order is not None and care.feed is not None
    chart = costs(care.order)
    assert chart is not None
    assert sum(values(chart, "cost")) == pytest.approx(care.order.cost_money)
    one = care.feed.nitrogen[0]
    fed = [row["grams"] for row in nitrogen(one)["data"]["values"] if row["part"] == "fed"]
    assert fed == pytest.approx([week.fed_g for week in one.weeks])


def test_every_chart_prints_plainly(scene: Scene) -> None:
    """Well-formed SVG as wide as asked, no script, no link; a title that is a sentence; units on axes."""
    charts = list(every_chart(scene))
    assert {"zone-1-pressure", "season-1-water", "bloom", "cost", "crew", "nitrogen-1"} <= {name for name, _ in charts}
    for name, chart in charts:
        root = ElementTree.fromstring(printed(chart, 500, 10))
        assert float(root.get("width", 0)) <= 520, name
        tags = {e.tag.rpartition("}")[2] for e in root.iter()}
        assert not tags & {"script", "foreignObject", "image", "a"}, name
        assert len(chart["title"]["text"].split()) > 3, name


def test_a_hostile_name_is_words_in_a_chart(scene: Scene) -> None:
    """Names of zones and containers never become elements or expressions."""
    from dataclasses import replace

    zone = scene.zones[0][1]
    bad = "<script>alert(1)</script> & datum.x"
    wild = replace(zone, worst_container=bad, containers=tuple(replace(c, row=bad) for c in zone.containers))
    for chart in (flows(wild, System.US), budget(wild, System.US)):
        root = ElementTree.fromstring(printed(chart, 500, 10))
        assert not any(e.tag.endswith("script") for e in root.iter())


def test_a_title_is_folded_to_its_width() -> None:
    """No line of words is wider than the room, and no word is lost."""
    words = "the season takes four thousand gallons and in no week does the chance of stress pass three percent"
    lines = folded(words, 150, 10)
    assert " ".join(lines) == words
    assert all(text_width(line, 10) <= 150 for line in lines)
