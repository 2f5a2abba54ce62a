"""Drawings are well-formed, safe, and say what the design says, measured back from the SVG."""

import math
import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.design.plans import CATALOG, EXAMPLES, FIXED, FOLDER, text_of

from brimful.design.stages import work_out
from brimful.plan.read import read_text
from brimful.quantities import System
from brimful.render.drawings.above import draw_above
from brimful.render.drawings.elevation import draw_elevation
from brimful.render.drawings.every import every_drawing
from brimful.render.drawings.scene import Scene, scene_of
from brimful.render.drawings.section import draw_section
from brimful.render.drawings.site import draw_site, has_site
from brimful.render.drawings.svg import element, escaped, text_width
from brimful.render.drawings.zone import draw_zone

HOSTILE = """<script>alert('x')</script> & "quotes" 🌺 שלום مرحبا ]]> {{x}} #eval"""
SVG = "{http://www.w3.org/2000/svg}"


def scene_from(text: str) -> Scene:
    """The scene of a plan given as text."""
    file = read_text(text, FOLDER / "plan.toml")
    assert file.plan is not None, file.findings
    outcome = work_out(file.plan, CATALOG, file.places, folder=FOLDER)
    assert outcome.design is not None and outcome.settled is not None
    return scene_of(file.plan, outcome.design, outcome.settled, CATALOG)


def kinds(svg: str, kind: str) -> list[ElementTree.Element]:
    """Elements of a drawing marked as such a thing."""
    return [e for e in ElementTree.fromstring(svg).iter() if e.get("data-kind") == kind]


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_drawing_of_every_example_is_plain_xml_without_script(name: str) -> None:
    """Each parses, holds only drawing elements, and refers to nothing outside."""
    for file, svg in every_drawing(scene_from(text_of(name))):
        root = ElementTree.fromstring(svg)
        assert root.tag == f"{SVG}svg", file
        tags = {e.tag.removeprefix(SVG) for e in root.iter()}
        assert tags <= {"svg", "title", "line", "path", "polygon", "circle", "rect", "text", "g"}, file
        assert not any(key.startswith("on") or "href" in key for e in root.iter() for key in e.attrib)


def test_emitters_and_root_balls_stand_where_the_design_puts_them() -> None:
    """Measured back from the SVG by its scale, each within a thousandth of its container."""
    scene = scene_from(text_of("alder_point_landing"))
    for row in scene.rows:
        svg = draw_above(scene, row, width=400)
        per_m = float(
            ElementTree.fromstring(svg).get("data-per_m") or ElementTree.fromstring(svg).get("data-per-m") or 0
        )
        hole = kinds(svg, "drain-hole")[0]
        x, y = float(hole.get("cx", 0)), float(hole.get("cy", 0))
        tube = row.worked.tube
        assert tube is not None
        drawn = [
            ((float(e.get("cx", 0)) - x) / per_m, (y - float(e.get("cy", 0))) / per_m) for e in kinds(svg, "emitter")
        ]
        assert [d[0] for d in drawn] == pytest.approx(tube.emitters_x_m, abs=1e-3)
        assert [d[1] for d in drawn] == pytest.approx(tube.emitters_y_m, abs=1e-3)
        balls = kinds(svg, "ball")
        assert [float(e.get("r", 0)) / per_m for e in balls] == pytest.approx(
            [p.ball_width_m / 2 for p in row.plants], abs=1e-3
        )
        if row.spec.vessel.outside.sides is None:
            rim = kinds(svg, "rim")[0]
            assert 2 * float(rim.get("r", 0)) / per_m == pytest.approx(row.width_m, abs=1e-3)


def test_containers_stand_along_the_lateral_at_their_distances() -> None:
    """In the zone's drawing the distance between containers is that of the plan, by the drawing's scale."""
    scene = scene_from(FIXED)
    spec, zone = scene.zones[0]
    svg = draw_zone(scene, (spec, zone), width=600)
    per_m = float(ElementTree.fromstring(svg).get("data-per-m", 0))
    xs = [float(e.get("cx", 0)) for e in kinds(svg, "station")]
    assert len(xs) == 4
    assert [(b - a) / per_m for a, b in pairwise(xs)] == pytest.approx([7 * 0.3048] * 3, abs=2e-3)


def test_a_scale_bar_is_as_long_as_it_says() -> None:
    """Two halves, together the length written beside them."""
    scene = scene_from(FIXED)
    svg = draw_elevation(scene, width=600)
    root = ElementTree.fromstring(svg)
    per_m = float(root.get("data-per-m", 0))
    bar = next(e for e in root.iter() if e.get("data-bar-m"))
    halves = [float(e.get("width", 0)) for e in root.iter(f"{SVG}rect")]
    assert sum(halves[:2]) / per_m == pytest.approx(float(bar.get("data-bar-m", 0)), abs=2e-3)
    feet = re.fullmatch(r"(\d+) ft", bar.text or "")
    assert feet is not None and float(feet[1]) * 0.3048 == pytest.approx(float(bar.get("data-bar-m", 0)))


def test_a_container_in_elevation_is_as_wide_as_it_is() -> None:
    """The widest of the outline over the scale is the outside width."""
    scene = scene_from(FIXED)
    svg = draw_elevation(scene, width=600)
    per_m = float(ElementTree.fromstring(svg).get("data-per-m", 0))
    points = [tuple(map(float, p.split(","))) for p in kinds(svg, "container")[0].get("points", "").split()]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    assert (max(xs) - min(xs)) / per_m == pytest.approx(30 * 0.0254, abs=2e-3)
    assert (max(ys) - min(ys)) / per_m == pytest.approx(24 * 0.0254, abs=2e-3)


def test_hostile_names_stay_words() -> None:
    """A name made to break out is shown as it is, and adds no element."""
    tame = list(every_drawing(scene_from(FIXED)))
    said = HOSTILE.replace('"', '\\"').replace("/", "")
    wild = list(every_drawing(scene_from(FIXED.replace('name = "row"', f'name = "{said}"'))))
    assert len(tame) == len(wild)
    for (_, plain), (_, svg) in zip(tame, wild, strict=True):
        count = sorted(e.tag for e in ElementTree.fromstring(plain).iter())
        assert sorted(e.tag for e in ElementTree.fromstring(svg).iter()) == count


@given(st.text())
def test_any_text_is_safe_in_an_element_and_in_an_attribute(words: str) -> None:
    """It parses, and comes back as it was but for signs that XML cannot hold."""
    root = ElementTree.fromstring(element("text", {"data_x": words}, escaped(words) or " "))
    kept = re.sub("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]", "", words)
    assert (root.text or "").replace("\r\n", "\n") == (kept or " ").replace("\r\n", "\n").replace("\r", "\n")
    assert root.get("data-x", "").split() == kept.split()


def test_gaps_true_to_scale_are_the_plans() -> None:
    """Where the drawing says so, containers in elevation stand as far apart as in the plan."""
    svg = draw_elevation(scene_from(FIXED), width=900)
    root = ElementTree.fromstring(svg)
    assert root.get("data-gaps") == "true"
    xs = [float((e.get("transform") or "").removeprefix("translate(").split()[0]) for e in kinds(svg, "stand")]
    per_m = float(root.get("data-per-m", 0))
    assert [(b - a) / per_m for a, b in pairwise(xs)] == pytest.approx([7 * 0.3048] * 3, abs=2e-3)


def test_a_section_has_the_containers_own_measures() -> None:
    """Outside height and width, depth of mix and headspace, measured back from the cut."""
    scene = scene_from(FIXED)
    row = scene.rows[0]
    svg = draw_section(scene, row, width=500)
    per_m = float(ElementTree.fromstring(svg).get("data-per-m", 0))
    box = {kind: spans(kinds(svg, kind)[0]) for kind in ("outside", "mix")}
    assert (box["outside"][0] / per_m, box["outside"][1] / per_m) == pytest.approx((30 * 0.0254, 24 * 0.0254), abs=2e-3)
    assert box["mix"][1] / per_m == pytest.approx(row.worked.fill_depth_m, abs=2e-3)
    assert (box["mix"][2] - box["outside"][2]) / per_m == pytest.approx(2 * 0.0254, abs=2e-3)


def spans(outline: ElementTree.Element) -> tuple[float, float, float]:
    """Width, height and top of an outline."""
    points = [tuple(map(float, p.split(","))) for p in outline.get("points", "").split()]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return max(xs) - min(xs), max(ys) - min(ys), min(ys)


def test_a_site_is_drawn_as_it_is_measured() -> None:
    """North is up, containers stand along their heading, a tree is as wide as the plan says."""
    start = 'start = ["2 m", "3 m"]\nheading = 0\napproach = "3 ft"'
    tree = '\n[[shade]]\nkind = "tree"\nat = ["10 m", "5 m"]\nheight = "6 m"\nwidth = "4 m"\n'
    scene = scene_from(FIXED.replace('approach = "3 ft"', start) + tree)
    assert has_site(scene)
    svg = draw_site(scene, width=600)
    per_m = float(ElementTree.fromstring(svg).get("data-per-m", 0))
    places = [(float(e.get("cx", 0)), float(e.get("cy", 0))) for e in kinds(svg, "container")]
    assert [(a[1] - b[1]) / per_m for a, b in pairwise(places)] == pytest.approx([7 * 0.3048] * 3, abs=2e-3)
    assert {round(x, 2) for x, _ in places} == {round(places[0][0], 2)}
    assert spans(kinds(svg, "tree")[0])[0] / per_m == pytest.approx(4.0, abs=0.05)
    assert not has_site(scene_from(FIXED))


def test_a_hundred_containers_all_stand_in_the_drawing() -> None:
    """The run of a long row has every container, and none beyond the page."""
    scene = scene_from(
        FIXED.replace("count = 4", "count = 100").replace('"5 gal in 30 s at 40 psi"', '"5 gal in 5 s at 55 psi"')
    )
    svg = draw_elevation(scene, width=500, size=10)
    stands = kinds(svg, "stand")
    assert len(stands) == 100
    for stand in stands:
        found = re.fullmatch(r"translate\(([\d.]+) [\d.]+\)", stand.get("transform", ""))
        outline = next(e for e in stand.iter() if e.get("data-kind") == "container")
        assert found is not None
        xs = [float(found[1]) + float(p.split(",")[0]) for p in outline.get("points", "").split()]
        assert min(xs) >= 0 and max(xs) <= 500


def test_words_are_not_wider_than_was_thought() -> None:
    """The estimate of a line's width stays on the safe side of the font's own advance widths."""
    from pathlib import Path

    from fontTools.ttLib import TTFont

    from brimful.render.fonts import font_folder

    font = TTFont(Path(font_folder()) / "SourceSansPro-Semibold.ttf")
    widths, names, unit = font["hmtx"], font.getBestCmap(), font["head"].unitsPerEm
    for words in (
        "water side: 12 × round tapered fibre cement",
        "WWW mmm",
        "illicit",
        "polyethylene 3/4 in, bore 0.818 in",
    ):
        true = sum(widths[names[ord(c)]][0] for c in words) / unit * 10
        assert true <= text_width(words, 10) <= 1.5 * true


def test_a_larger_sun_is_not_needed_to_read_months() -> None:
    """Week 0 falls in the month of planting, and months run on over the year's end."""
    scene = scene_from(FIXED)
    assert scene.month_of_week(0) == 5
    assert math.isclose(scene.month_of_week(8), 7)
    assert scene.system is System.US


def test_every_device_has_its_own_shape_and_its_name() -> None:
    """Tap, backflow device, filter, valve and regulator stand in the order of the water, each once, each named."""
    scene = scene_from(FIXED)
    spec, zone = scene.zones[0]
    svg = draw_zone(scene, (spec, zone), width=600)
    order = [e.get("data-kind") for e in ElementTree.fromstring(svg).iter() if e.get("data-kind") in SHAPES]
    assert order == ["tap", "backflow", "filter", "valve", "regulator"]
    said = {e.text for e in ElementTree.fromstring(svg).iter(f"{SVG}text")}
    assert {"tap", "regulator", *(device.name for device in spec.inlet.devices)} <= said


SHAPES = ("tap", "backflow", "filter", "valve", "regulator", "meter")


def test_single_emitters_stand_where_the_design_puts_them() -> None:
    """Open dots from above, each at its place by the scale; in the cut at the same distances from the middle."""
    scene = scene_from(text_of("balcony"))
    row = scene.rows[0]
    found = row.worked.emitters
    assert found is not None and row.worked.tube is None
    above, cut = draw_above(scene, row, width=400), draw_section(scene, row, width=400)
    per_m = float(ElementTree.fromstring(above).get("data-per-m", 0))
    x = float(kinds(above, "drain-hole")[0].get("cx", 0))
    y = float(kinds(above, "drain-hole")[0].get("cy", 0))
    drawn = [
        ((float(e.get("cx", 0)) - x) / per_m, (y - float(e.get("cy", 0))) / per_m) for e in kinds(above, "emitter")
    ]
    assert drawn == [pytest.approx(spot, abs=1e-3) for spot in zip(found.emitters_x_m, found.emitters_y_m, strict=True)]
    across = {
        round((float(e.get("cx", 0)) - 200) / float(ElementTree.fromstring(cut).get("data-per-m", 1)), 2)
        for e in kinds(cut, "emitter")
    }
    assert across == {round(x_m, 2) for x_m in found.emitters_x_m}


def test_an_open_end_has_its_plug_past_the_last_emitter() -> None:
    """One short bar where dripline ends, none where single emitters stand, one at the end of each lateral."""
    scene = scene_from(text_of("alder_point_landing"))
    for row in scene.rows:
        svg = draw_above(scene, row, width=400)
        assert len(kinds(svg, "plug")) == 1
        bar, last = kinds(svg, "plug")[0], kinds(svg, "emitter")[-1]
        middle = [(float(bar.get(f"{axis}1", 0)) + float(bar.get(f"{axis}2", 0))) / 2 for axis in "xy"]
        away = math.dist(middle, (float(last.get("cx", 0)), float(last.get("cy", 0))))
        assert float(last.get("r", 0)) < away < 10
    assert not kinds(
        draw_above(scene_from(text_of("balcony")), scene_from(text_of("balcony")).rows[0], width=400), "plug"
    )
    spec, zone = scene.zones[0]
    assert len(kinds(draw_zone(scene, (spec, zone), width=600), "plug")) == len(spec.zone.laterals)
