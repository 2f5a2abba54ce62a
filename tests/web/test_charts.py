"""Charts by themselves: each has its page, draws what prints, forbids what it need not, says its values."""

import gzip
import json
import re
import zlib
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from starlette.testclient import TestClient
from tests.design.plans import EXAMPLES, FIXED
from tests.web.reading import read_page
from tests.web.visitor import plan_in, until_done, visiting

from brimful.render.charts.every import every_chart
from brimful.render.charts.vega import Spec, printed
from brimful.services import example, see
from brimful.web import engine
from brimful.web.live import live, rows_of, tables, units

HOSTILE = "<!--<script><img src=x onerror=alert(1)>\"'&{{7*7}}"
HOSTILE_PLAN = FIXED.replace('name = "row"', f"name = '''{HOSTILE}'''")
SCRIPT = b"let one = 1;\n"


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """A visitor of the examples and of a plan with a hostile name, all worked out."""
    hostile = plan_in(tmp_path_factory.mktemp("plans"), "hostile.toml", HOSTILE_PLAN)
    with visiting(*(example(name) for name in EXAMPLES), hostile) as one:
        for name in (*EXAMPLES, "hostile"):
            one.get(f"/p/{name}/")
        for name in (*EXAMPLES, "hostile"):
            until_done(one, f"/p/{name}/", 180)
        yield one


@pytest.fixture(scope="module")
def charts() -> dict[str, dict[str, Spec]]:
    """The charts of each example, made apart from the page."""
    scenes = {name: see(example(name)).scene for name in EXAMPLES}
    return {name: dict(every_chart(scene)) for name, scene in scenes.items() if scene is not None}


@pytest.fixture
def stand_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[list[int]]:
    """A script that is made at once, with a note of each making, and a cache of its own."""
    made: list[int] = []

    def make() -> bytes:
        made.append(1)
        return gzip.compress(SCRIPT, mtime=0)

    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr(engine, "_made", make)
    engine._packed.cache_clear()
    yield made
    engine._packed.cache_clear()


class _Held(HTMLParser):
    """What a browser takes for the text of the data script, and how many tags of each kind there are."""

    def __init__(self) -> None:
        super().__init__()
        self.held, self.tags, self._inside = "", list[str](), False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self._inside = tag == "script" and dict(attrs).get("type") == "application/json"

    def handle_data(self, data: str) -> None:
        self.held += data if self._inside else ""

    def handle_endtag(self, tag: str) -> None:
        self._inside = self._inside and tag != "script"


def held_on(page: str) -> dict[str, Any]:
    """What the page gives the browser to draw."""
    reader = _Held()
    reader.feed(page)
    found: dict[str, Any] = json.loads(reader.held)
    return found


def bare(chart: Spec) -> Spec:
    """A chart without what only the live one has."""
    plain: Spec = json.loads(json.dumps(chart))
    for unit in units(plain):
        unit.pop("params", None)
        for channel in ("tooltip", "opacity", "strokeOpacity"):
            unit.get("encoding", {}).pop(channel, None)
        if not unit.get("encoding", True):
            del unit["encoding"]
        mark = unit["mark"] if isinstance(unit["mark"], dict) else {"type": unit["mark"]}
        point = mark.get("point")
        unit["mark"] = {key: one for key, one in mark.items() if key != "point" or "opacity" not in point}
    return plain


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_chart_has_its_page(client: TestClient, charts: dict[str, dict[str, Spec]], name: str) -> None:
    """A page for each chart, with its finding as heading, its picture, a table with every row, and a way back."""
    assert charts[name]
    for key, chart in charts[name].items():
        said = client.get(f"/p/{name}/chart/{key}")
        assert said.status_code == 200, key
        read = read_page(said.text)
        assert chart["title"]["text"] in read.headings, key
        assert any(f"chart-{key}.svg" in src and alt for src, alt in read.pictures), key
        assert len(read.rows) > len(chart["data"]["values"]), key
        assert any(re.fullmatch(rf"/p/{name}/(water|plants|make|keep)", link) for link in read.links), key


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_page_draws_what_prints(client: TestClient, charts: dict[str, dict[str, Spec]], name: str) -> None:
    """Without tooltips and the choice in the legend, the chart on the page is the one that prints."""
    for key, chart in charts[name].items():
        spec = held_on(client.get(f"/p/{name}/chart/{key}").text)["spec"]
        assert bare(spec) == bare(chart), key
        assert printed(live(chart), 500, 14)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_picture_of_a_chart_leads_to_it(
    client: TestClient, charts: dict[str, dict[str, Spec]], name: str
) -> None:
    """Under each chart of a lens stands the link to its page, and each chart of the plan is reached so."""
    led = set[str]()
    for lens in ("water", "plants", "make", "keep"):
        read = read_page(client.get(f"/p/{name}/{lens}").text)
        here = {found[1] for link in read.links if (found := re.fullmatch(rf"/p/{name}/chart/(.+)", link))}
        shown = {found[1] for src, _ in read.pictures if (found := re.search(r"/drawing/chart-(.+?)\.svg", src))}
        assert here == shown
        led |= here
    assert led == set(charts[name])


def test_a_charts_page_is_as_safe_as_any(client: TestClient) -> None:
    """Its headers allow neither code made from text nor anything from elsewhere, and no script stands in it."""
    said = client.get("/p/balcony/chart/zone-1-flow")
    policy = said.headers["content-security-policy"]
    assert policy == client.get("/p/balcony/").headers["content-security-policy"]
    assert "unsafe" not in policy
    assert "script-src 'self'" in policy
    scripts = re.findall(r"<script([^>]*)>", said.text)
    assert all("src=" in one or 'type="application/json"' in one for one in scripts)


@pytest.mark.parametrize(
    "name", ["nothing", "zone-99-flow", "chart-zone-1-flow.svg", "..%2fwater", "%00", HOSTILE[1:9]]
)
def test_there_is_no_other_chart(client: TestClient, name: str) -> None:
    """A name that no chart has is said not to be there."""
    assert client.get(f"/p/balcony/chart/{name}").status_code == 404


def test_a_hostile_name_stays_a_name(client: TestClient) -> None:
    """A row named like markup ends no script, makes no element, and comes out of the data as it was written."""
    text = client.get("/p/hostile/chart/zone-1-flow").text
    reader = _Held()
    reader.feed(text)
    assert [tag for tag in reader.tags if tag == "script"] == ["script"] * 5
    assert "onerror=alert(1)>" not in text
    assert "{{7*7}}" in text
    assert {row["row"] for row in json.loads(reader.held)["spec"]["data"]["values"]} == {HOSTILE}


def test_tooltips_say_units_and_every_value_is_in_the_table(charts: dict[str, dict[str, Spec]]) -> None:
    """Each mark with more than one value behind it says them with their titles; tables have a cell for each."""
    for every in charts.values():
        for key, chart in every.items():
            told = [unit["encoding"]["tooltip"] for unit in units(live(chart)) if "tooltip" in unit.get("encoding", {})]
            assert told, key
            assert all(one["title"] and ("format" in one) == (one["type"] == "quantitative") for t in told for one in t)
            for _, heads, rows in tables(chart):
                assert all(len(row) == len(heads) and all(row) for row in rows), key


@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=20))
def test_a_rounded_value_is_near_the_value(values: list[float]) -> None:
    """What the table says of a number is within half its last digit of it."""
    chart: Spec = {
        "data": {"values": [{"name": "a", "of": value} for value in values]},
        "mark": "bar",
        "encoding": {"x": {"field": "of", "type": "quantitative"}, "y": {"field": "name", "type": "nominal"}},
    }
    most = max(map(abs, values))
    half = 0.5 if most >= 100 else 0.05 if most >= 10 else 0.005
    for (said, _), row in zip(next(tables(chart))[2], rows_of(chart, chart), strict=True):
        assert abs(float(said.replace(",", "").replace("−", "-")) - row["of"]) <= half * (1 + 1e-6)


def test_the_script_is_made_once_and_kept_for_good(client: TestClient, stand_in: list[int]) -> None:
    """It comes packed and may be kept for good; asked again, or after a start, it is not made anew."""
    said = client.get(engine.engine_address())
    assert said.content == SCRIPT
    assert said.headers["content-encoding"] == "gzip"
    assert "immutable" in said.headers["cache-control"]
    plain = client.get(engine.engine_address(), headers={"Accept-Encoding": "identity"})
    assert plain.content == SCRIPT
    assert "content-encoding" not in plain.headers
    engine._packed.cache_clear()
    assert client.get(engine.engine_address()).content == SCRIPT
    assert stand_in == [1]


def test_an_old_address_of_the_script_leads_to_the_new(client: TestClient, stand_in: list[int]) -> None:
    """A page of before an update still draws."""
    assert client.get("/engine/0123456789abcdef.js").content == SCRIPT


def test_a_damaged_cache_is_made_anew(stand_in: list[int]) -> None:
    """Half a file, or something else, is never sent."""
    engine.packed()
    (kept,) = engine.cache_folder().iterdir()
    for damage in (b"", b"nothing packed", kept.read_bytes()[:-9]):
        kept.write_bytes(damage)
        engine._packed.cache_clear()
        assert zlib.decompress(engine.packed(), 31) == SCRIPT
    assert len(stand_in) == 4


def test_without_a_place_to_keep_it_the_script_is_still_sent(
    stand_in: list[int], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A cache that cannot be written to costs the making at each start, nothing else."""
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    assert gzip.decompress(engine.packed()) == SCRIPT
