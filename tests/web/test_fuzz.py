"""Every address of the page asked with whatever can be asked: real and hostile names, queries, forms, JSON, plans."""

import os
import re
import shutil
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlencode

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.routing import Route
from starlette.testclient import TestClient
from tests.cli.bad_plans import CANNOT_START, GOOD, WEATHERS, WORKED_OUT
from tests.web.visitor import plan_in, token_on, until_done, visiting

from brimful.services import example
from brimful.web.app import routes

ALL = bool(os.environ.get("BRIMFUL_TEST_ALL"))
MANY = 3000 if ALL else 150
ROUTES = [route for route in routes() if isinstance(route, Route)]
PLANS = ("alder_point_landing", "balcony", "broken", "rail")
HOSTILE = (
    "", ".", "..", "../../etc/passwd", "%2e%2e", "\x00", "\x1b[31m", "'\" onload=x", "<script>alert(1)</script>",
    "{{ 7*7 }}", "${x}", "nan", "-1", "0", "1e400", "9" * 5000, "９", "\u202e", "a" * 4000, "/", "//x", "None",
    "rail 0", "rail 99", "rail -1", "rail ³", "chart-", "chart-.svg", ".svg", "C:\\x", "null", "true", "[]", "{}",
)  # fmt: skip
KEYS = ("c", "week", "for", "d", "token", "to", "name", "text", "line", "value", "digest", "day", "kind", "note", "id")
WORDS = st.sampled_from(HOSTILE) | st.text(max_size=40)
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | WORDS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS) | WORDS, inner, max_size=3),
    max_leaves=6,
)
MIXED = settings(max_examples=MANY, deadline=None, suppress_health_check=list(HealthCheck))


class Asked:
    """A folder of plans under one client, and the addresses that its pages lead to."""

    def __init__(self, client: TestClient) -> None:
        self.client = client
        for plan in PLANS:
            client.get(f"/p/{plan}/")
        for plan in PLANS:
            until_done(client, f"/p/{plan}/", 180)
        pages = [path for plan in PLANS for path in self.addresses(f"/p/{plan}/")]
        self.links = sorted({link for page in pages[: None if ALL else 25] for link in self.addresses(page)})
        self.token = token_on(client.get("/p/rail/").text) if "token" in client.get("/p/rail/").text else ""

    def addresses(self, page: str) -> list[str]:
        """The addresses a page leads to or shows, in this place."""
        said = self.client.get(page)
        found = (
            re.findall(r'(?:href|src|action)="([^"#]+)"', said.text) if "html" in said.headers["content-type"] else []
        )
        return [
            str(said.url.join(unescape(one)).raw_path, "ascii") for one in found if ":" not in one.partition("?")[0]
        ]


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Asked]:
    """A visitor of examples, a small plan, and one that cannot be worked out."""
    folder = tmp_path_factory.mktemp("plans")
    for path in example("balcony").parent.iterdir():
        if path.is_file():
            shutil.copy(path, folder / path.name)
    plan_in(folder)
    plan_in(folder, "broken.toml", CANNOT_START["unknown plant"][0])
    with visiting(folder) as client:
        yield Asked(client)


def filled(draw: Any, route: Route, known: list[str]) -> str:
    """The address of a route with each of its names filled in."""
    path = route.path
    for whole, name, kind in re.findall(r"(\{(\w+)(:\w+)?\})", path):
        likely = st.sampled_from(PLANS) if name == "plan" else st.sampled_from(known) | WORDS
        word = draw(likely if draw(st.integers(0, 9)) else WORDS)
        path = path.replace(whole, quote(word, safe="/" if kind == ":path" else ""))
    return path


@st.composite
def requests(draw: Any) -> tuple[Route, st.DataObject | Any, dict[str, Any]]:
    """A route, and what is sent with it."""
    sent: dict[str, Any] = {}
    how = draw(st.sampled_from(["nothing", "form", "files", "json", "bytes"]))
    words = st.dictionaries(st.sampled_from(KEYS) | WORDS, WORDS, max_size=4)
    if how == "form":
        sent["data"] = draw(words)
    elif how == "files":
        sent["files"] = {k or "x": ("n", v.encode()) for k, v in draw(words).items()}
    elif how == "json":
        sent["content"] = _dumped(draw(JSON))
        sent["headers"] = {"Content-Type": "application/json"}
    elif how == "bytes":
        sent["content"] = draw(st.binary(max_size=200))
        kinds = ["application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "text/plain", "x"]
        sent["headers"] = {"Content-Type": draw(st.sampled_from(kinds))}
    return draw(st.sampled_from(ROUTES)), draw(words), sent


def _dumped(data: object) -> bytes:
    import json

    return json.dumps(data).encode()


@MIXED
@given(st.data())
def test_no_address_ever_breaks(asked: Asked, data: st.DataObject) -> None:
    """Whatever is asked of any route, by any of its methods, the answer is a page, a file or a refusal in words."""
    route, query, sent = data.draw(requests())
    known = [part for link in asked.links for part in link.partition("?")[0].split("/")[3:] if part] or ["x"]
    path = filled(data.draw, route, known)
    method = data.draw(st.sampled_from(sorted(route.methods or {"GET"})))
    if data.draw(st.booleans()):
        sent.setdefault("headers", {})["X-Brimful-Token"] = asked.token
    if method == "GET":
        sent = {}
    said = asked.client.request(method, f"{path}?{urlencode(query)}", **sent)
    assert said.status_code < 500
    assert "Traceback" not in said.text[:100_000]


@MIXED
@given(st.data())
def test_real_addresses_with_hostile_questions(asked: Asked, data: st.DataObject) -> None:
    """Addresses that pages lead to, asked with a query of any kind, answer; what is said comes back harmless."""
    path = data.draw(st.sampled_from(asked.links)).partition("?")[0]
    query = data.draw(st.dictionaries(st.sampled_from(KEYS), WORDS, max_size=3))
    said = asked.client.get(f"{path}?{urlencode(query)}")
    assert said.status_code < 500
    if "html" in said.headers.get("content-type", ""):
        assert "<script>alert" not in said.text
        assert "' onload" not in said.text


def test_every_address_that_pages_lead_to_answers(asked: Asked) -> None:
    """No dead link and no missing file anywhere below the plans, as far as the second step reaches."""
    dead = {link: code for link in asked.links if (code := asked.client.get(link).status_code) not in (200, 405)}
    assert dead == {}


@pytest.mark.parametrize("name", [*CANNOT_START, *WORKED_OUT])
def test_hostile_plans_are_served(tmp_path: Path, name: str) -> None:
    """A plan with one thing wrong is shown with what to mend, on every page, before and after the longer work."""
    text = CANNOT_START[name][0] if name in CANNOT_START else WORKED_OUT[name][0]
    with visiting(plan_in(tmp_path, text=text)) as one:
        assert one.get("/p/rail/").status_code == 200
        until_done(one, "/p/rail/")
        for route in ROUTES if ALL or name in WORKED_OUT else ROUTES[:5]:
            if "GET" in (route.methods or ()):
                path = re.sub(r"\{(\w+)(:\w+)?\}", lambda m: "rail" if m[1] == "plan" else "rail%201", route.path)
                assert one.get(path).status_code < 500, path
        assert not one.get("/p/rail/work").json()["broken"]


@pytest.mark.parametrize("name", WEATHERS)
def test_hostile_weather_is_served(tmp_path: Path, name: str) -> None:
    """A weather file with one thing wrong is shown with what to mend."""
    (tmp_path / "w.csv").write_text(WEATHERS[name][0], encoding="utf-8")
    text = GOOD.replace("[[containers]]", '[site]\nweather = "w.csv"\n\n[[containers]]', 1)
    with visiting(plan_in(tmp_path, text=text)) as one:
        assert one.get("/p/rail/").status_code == 200
        assert not until_done(one, "/p/rail/")["broken"]
        assert one.get("/p/rail/doubts").status_code == 200


@settings(max_examples=60 if ALL else 10, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.binary(max_size=300) | st.text(max_size=300).map(lambda text: text.encode("utf-8", "replace")))
def test_any_bytes_as_a_plan_are_served(tmp_path: Path, text: bytes) -> None:
    """A file that is no plan at all gets a page that says so."""
    (tmp_path / "rail.toml").write_bytes(text)
    with visiting(tmp_path / "rail.toml") as one:
        assert one.get("/p/rail/").status_code in (200, 409)
        assert one.get("/p/rail/doubts").status_code in (200, 409)
