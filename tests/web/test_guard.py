"""The guard: who may ask, what may be sent, what a browser may load; others let in by phrase or link."""

import asyncio
import logging
import re
import socket
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from starlette.testclient import TestClient
from starlette.types import Message, Receive, Scope, Send
from tests.web.visitor import PLACE, plan_in, token_on, visiting

from brimful.web import files, guard, share
from brimful.web.rack import plans_at
from brimful.web.serving import _listen, _one_line, access_line

PHRASE = "nine wet terracotta pots"
STOP = "/p/rail/work/stop"
FORMS = "/p/rail/edit"
"""A page with forms on it whether work is under way or done."""


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    """A visitor of one small plan."""
    with visiting(plan_in(tmp_path)) as one:
        yield one


@pytest.fixture
def shared(tmp_path: Path) -> Iterator[TestClient]:
    """A visitor of one small plan that is shared, who has not entered."""
    with visiting(plan_in(tmp_path), share=PHRASE) as one:
        yield one


def enter(client: TestClient, phrase: str, **more: str) -> int:
    """Try a phrase; the status of the answer."""
    token = token_on(client.get("/enter").text)
    said = client.post("/enter", data={"phrase": phrase, "token": token, **more}, follow_redirects=False)
    return said.status_code


@pytest.mark.parametrize("host", ["127.0.0.1:8477", "localhost", "LOCALHOST:1", "[::1]:8477"])
def test_this_machine_may_ask(client: TestClient, host: str) -> None:
    """Every name of the loopback is answered."""
    assert client.get("/", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    ["plants.example", "127.0.0.1.example", "localhost.example", "192.168.1.5:8477", "", "a@localhost", "localhost:x",
     "127.0.0.1:8477, other", "0.0.0.0:8477", "127.0.0.1:8477/"],
)  # fmt: skip
def test_a_name_made_to_lead_here_is_refused(client: TestClient, host: str) -> None:
    """A page elsewhere whose name was turned to this machine gets no plan, in plain words."""
    said = client.get("/p/rail/", headers={"Host": host})
    assert said.status_code == 421
    assert "Open the one that the terminal shows" in said.text
    assert "Bad plans" not in said.text


def test_a_shared_plan_answers_to_the_number_it_was_reached_by(tmp_path: Path) -> None:
    """With sharing the machine's own number in the network is a good name, and no other."""
    with visiting(plan_in(tmp_path), share=PHRASE, place="http://192.168.1.5:8477") as one:
        assert one.get("/enter").status_code == 200
        assert one.get("/enter", headers={"Host": "192.168.1.6:8477"}).status_code == 421


def test_headers_forbid_what_is_not_the_pages_own(client: TestClient) -> None:
    """No script or style in the page's text, none from elsewhere, no frame, no guessing of types."""
    heads = client.get("/p/rail/").headers
    policy = heads["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "frame-ancestors 'none'" in policy
    assert heads["x-content-type-options"] == "nosniff"
    assert heads["cache-control"] == "no-cache"


def test_pages_carry_no_script_or_style_in_their_text(client: TestClient) -> None:
    """What the policy forbids is not there: no style or handler attribute, no script without an address."""
    for page in ("", "water", "plants", "make", "keep", "notes", "doubts"):
        text = client.get(f"/p/rail/{page}").text
        assert not re.search(r"<style|<script(?![^>]* src=)|\sstyle=|\son\w+=|javascript:", text), page


def test_a_fault_of_ours_keeps_its_headers_and_shows_no_traceback(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What breaks inside is said plainly, under the same policy; the terminal gets one line."""

    def broken(_: object) -> None:
        raise ZeroDivisionError("a very inner matter")

    monkeypatch.setattr("brimful.web.bench.Bench.sight", broken)
    with visiting(plan_in(tmp_path), raise_server_exceptions=False) as one:
        said = one.get("/p/rail/")
    assert said.status_code == 500
    assert "not your doing" in said.text
    assert "inner matter" not in said.text
    assert "Traceback" not in said.text
    assert said.headers["content-security-policy"] == guard.POLICY


def test_the_terminal_is_told_of_a_fault_in_one_line() -> None:
    """A record with a traceback becomes one line that names the fault and its place."""
    with pytest.raises(ZeroDivisionError) as caught:
        _ = 1 / 0
    kind = (caught.type, caught.value, caught.tb)
    record = logging.LogRecord("uvicorn.error", logging.ERROR, "", 0, "Exception in ASGI application\n", (), kind)
    assert _one_line(record)
    told = logging.Formatter().format(record)
    assert told.startswith("A fault of ours: ZeroDivisionError in test_guard.py, line ")
    assert "\n" not in told


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "FROB"])
def test_unknown_ways_of_asking_are_refused(client: TestClient, method: str) -> None:
    """Every other method is 405 with what is allowed, on pages and files alike."""
    for path in ("/", "/p/rail/", STOP, "/static/brimful.css"):
        said = client.request(method, path)
        assert said.status_code == 405
        assert "POST" in said.headers["allow"]


def test_a_page_cannot_be_posted_to(client: TestClient) -> None:
    """A page that only shows is 405 to a form, in words."""
    token = token_on(client.get(FORMS).text)
    said = client.post("/p/rail/water", data={"token": token})
    assert said.status_code == 405
    assert "Nothing was done" in said.text


def test_the_head_of_a_page_is_the_pages(client: TestClient) -> None:
    """HEAD answers as GET does, without what it would hold."""
    for path in ("/p/rail/", "/p/rail/work", "/static/brimful.css"):
        whole, head = client.get(path), client.head(path)
        assert head.status_code == whole.status_code == 200
        assert head.headers["content-type"] == whole.headers["content-type"]


def test_a_form_of_the_page_is_believed(client: TestClient) -> None:
    """The token of a page, with its cookie, lets a form through, be it in a field or a header."""
    token = token_on(client.get(FORMS).text)
    assert client.post(STOP, data={"token": token}, follow_redirects=False).status_code == 303
    assert client.post(STOP, files={"token": (None, token)}, follow_redirects=False).status_code == 303
    assert client.post(STOP, headers={"X-Brimful-Token": token}, json={}, follow_redirects=False).status_code == 303


@pytest.mark.parametrize("where", ["none", "empty", "another's", "turned", "json"])
def test_what_carries_no_token_of_this_visitor_is_not_done(client: TestClient, where: str) -> None:
    """No token, a token of another visitor, one letter changed, or a token inside JSON: 403, and the work goes on."""
    own = token_on(client.get(FORMS).text)
    other = TestClient(client.app, base_url=PLACE)
    turned = own[:-1] + ("0" if own[-1] != "0" else "1")
    given = {"none": None, "empty": "", "another's": token_on(other.get(FORMS).text), "turned": turned}.get(where)
    if where == "json":
        said = client.post(STOP, json={"token": own})
    else:
        said = client.post(STOP, data={} if given is None else {"token": given})
    assert said.status_code == 403
    assert client.get("/p/rail/work").json()["stopped"] is False


def test_a_token_without_its_cookie_is_worth_nothing(client: TestClient) -> None:
    """A token that was read over someone's shoulder does not serve without the cookie it is bound to."""
    token = token_on(client.get(FORMS).text)
    client.cookies.clear()
    assert client.post(STOP, data={"token": token}).status_code == 403


def test_the_cookie_is_out_of_reach(client: TestClient) -> None:
    """Scripts cannot read it, other sites' pages do not send it, and each port has its own."""
    set_cookie = client.get("/p/rail/").headers["set-cookie"]
    assert set_cookie.startswith("brimful-8477=")
    assert "HttpOnly" in set_cookie
    assert "SameSite=Strict" in set_cookie


def test_tokens_of_one_visitor_differ_and_all_hold(client: TestClient) -> None:
    """Each page carries another token, so that packed sizes tell nothing; older ones still hold."""
    tokens = {token_on(client.get(FORMS).text) for _ in range(3)}
    assert len(tokens) == 3
    for token in tokens:
        assert client.post(STOP, data={"token": token}, follow_redirects=False).status_code == 303


@pytest.mark.parametrize(
    "heads",
    [
        {"Origin": "http://plants.example"},
        {"Origin": "null"},
        {"Origin": "http://127.0.0.1:9999"},
        {"Origin": "https://127.0.0.1:8477"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site", "Origin": "http://127.0.0.1:8477"},
    ],
)
def test_a_form_on_another_page_is_not_done(client: TestClient, heads: dict[str, str]) -> None:
    """Even with a good token, what another page sends is refused, another port of this machine included."""
    token = token_on(client.get(FORMS).text)
    assert client.post(STOP, data={"token": token}, headers=heads).status_code == 403
    own = {"Origin": PLACE, "Sec-Fetch-Site": "same-origin"}
    assert client.post(STOP, data={"token": token}, headers=own, follow_redirects=False).status_code == 303


def test_another_page_may_link_but_not_load(client: TestClient) -> None:
    """A link from elsewhere is followed; a picture or script of ours on another page is refused."""
    load = {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors"}
    assert client.get("/p/rail/work", headers=load).status_code == 403
    assert client.get("/p/rail/", headers={**load, "Sec-Fetch-Mode": "navigate"}).status_code == 200


def test_what_is_too_large_is_refused_in_words(client: TestClient) -> None:
    """More than a megabyte is 413, told by its length or counted piece by piece; just as much is taken."""
    token = token_on(client.get(FORMS).text)
    heads = {"X-Brimful-Token": token, "Content-Type": "text/plain"}

    def pieces(count: int) -> Iterator[bytes]:
        yield from (b"x" * 65536 for _ in range(count))

    told = client.post(STOP, content=b"x" * (guard.MOST_BYTES + 1), headers=heads)
    assert told.status_code == 413
    assert "larger than one megabyte" in told.text
    assert client.post(STOP, content=pieces(17), headers=heads).status_code == 413
    assert client.post(STOP, content=pieces(16), headers=heads, follow_redirects=False).status_code == 303
    assert client.request("GET", "/p/rail/", content=b"x" * (guard.MOST_BYTES + 1)).status_code == 413


@pytest.mark.parametrize("length", ["-1", "abc", "9" * 30, "1e3"])
def test_a_length_that_is_none_is_refused(client: TestClient, length: str) -> None:
    """A length that is no number, or beyond all measure, is refused before anything is read."""
    assert client.post(STOP, content=b"", headers={"Content-Length": length}).status_code == 413


def test_what_dawdles_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """A body that does not arrive in time is 408."""
    monkeypatch.setattr(guard, "MOST_SECONDS", 0.01)
    said: list[Message] = []

    async def never() -> Message:
        await asyncio.sleep(60)
        return {"type": "http.disconnect"}

    async def answer(message: Message) -> None:
        said.append(message)

    async def app(scope: Scope, receive: Receive, send: Send) -> None:
        raise AssertionError("let through")

    heads = [(b"host", b"localhost"), (b"content-length", b"9")]
    scope = {"type": "http", "method": "POST", "scheme": "http", "path": "/", "query_string": b"", "headers": heads}
    with ThreadPoolExecutor(1) as apart:  # a browser test in the same process leaves its own loop running
        apart.submit(asyncio.run, guard.Guard(app)(scope, never, answer)).result()
    assert said[0]["status"] == 408


@pytest.mark.parametrize(
    "body", [b"", b"--x", b"--x\r\n\r\n\r\n", b'--x\r\nContent-Disposition: form-data; name="\xff"\r\n']
)
def test_a_form_that_is_none_is_refused(client: TestClient, body: bytes) -> None:
    """A broken form is no fault of ours."""
    for kind in ("multipart/form-data; boundary=x", "multipart/form-data", "application/x-www-form-urlencoded"):
        said = client.post(STOP, content=body, headers={"Content-Type": kind})
        assert said.status_code in (400, 403), kind


@pytest.mark.parametrize(
    "path",
    ["/static/../app.py", "/static/%2e%2e/app.py", "/static/..%2fapp.py", "/static/%2e%2e%2f%2e%2e%2fweb/app.py",
     "/static//etc/passwd", "/static/..\\app.py", "/static/", "/static", "/static/fonts", "/static/%00",
     "/static/0123456789abcdef/../../app.py", "/p/..%2f..%2fetc/", "/p/../", "/p/rail.toml/", "/p/.hidden/"],
)  # fmt: skip
def test_nothing_outside_is_given_out(client: TestClient, tmp_path: Path, path: str) -> None:
    """No way up, no listing of a folder, no name that is not a plan's."""
    plan_in(tmp_path, ".hidden.toml")
    said = client.get(path)
    assert said.status_code in (200, 404)
    assert "import" not in said.text
    assert said.status_code == 404 or "Which plan" in said.text or "/p/rail/" in said.text


def test_static_files_are_kept_for_good_by_their_content(client: TestClient) -> None:
    """The address on the page has the content's mark and is kept; without the mark, or with an old one, it is not."""
    address = re.search(r'href="(/static/[0-9a-f]{16}/brimful.css)"', client.get(FORMS).text)
    assert address is not None
    kept = client.get(address[1])
    assert kept.status_code == 200
    assert kept.headers["cache-control"] == files.FOR_GOOD
    for other in ("/static/brimful.css", f"/static/{'0' * 16}/brimful.css"):
        said = client.get(other)
        assert said.text == kept.text
        assert said.headers["cache-control"] == "no-cache"


def test_the_mark_changes_with_the_content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A changed file has another address; the same content the same one."""
    monkeypatch.setattr(files, "PLACE", tmp_path)
    (tmp_path / "a.css").write_text("a { color: red }")
    first = files.mark()
    (tmp_path / "a.css").write_text("a { color: redder }")
    second = files.mark()
    (tmp_path / "a.css").write_text("a { color: red }")
    assert first != second
    assert files.mark() == first


def test_pages_are_packed_where_the_browser_can_unpack(client: TestClient) -> None:
    """HTML goes gzipped to those who take it, and plain to those who do not."""
    packed = client.get("/p/rail/", headers={"Accept-Encoding": "gzip"})
    plain = client.get("/p/rail/", headers={"Accept-Encoding": "identity"})
    assert packed.headers["content-encoding"] == "gzip"
    assert "content-encoding" not in plain.headers
    assert "<main" in plain.text


# Sharing


def test_those_who_have_not_entered_see_the_way_in_and_nothing_else(shared: TestClient) -> None:
    """Pages, parts and lists are 401 with the form; the style is there; what plain http means is said."""
    for path in ("/", "/p/rail/", "/p/rail/work", "/p/rail/drawing/elevation.svg", "/container/rail 1", "/nowhere"):
        said = shared.get(path)
        assert said.status_code == 401
        assert "not encrypted" in said.text
        assert "Bad plans" not in said.text
    assert shared.get("/static/brimful.css").status_code == 200
    token = token_on(shared.get("/enter").text)
    assert shared.post(STOP, data={"token": token}).status_code == 401


def test_the_phrase_lets_in_and_leads_on(shared: TestClient) -> None:
    """The phrase, however composed and spaced at its ends, sets a cookie that scripts cannot read."""
    token = token_on(shared.get(FORMS).text)
    sent = {"phrase": f" {PHRASE} ", "token": token, "to": "/p/rail/water"}
    said = shared.post("/enter", data=sent, follow_redirects=False)
    assert (said.status_code, said.headers["location"]) == (303, "/p/rail/water")
    assert "HttpOnly" in said.headers["set-cookie"]
    assert shared.get("/p/rail/water").status_code == 200


@pytest.mark.parametrize(
    "to", ["//plants.example/", "https://plants.example/", "/\\plants.example", "x", "/\r\nSet-Cookie: a=b"]
)
def test_the_way_in_leads_nowhere_else(shared: TestClient, to: str) -> None:
    """Whatever the form says, the answer stays on this page."""
    sent = {"phrase": PHRASE, "token": token_on(shared.get("/enter").text), "to": to}
    said = shared.post("/enter", data=sent, follow_redirects=False)
    assert said.headers["location"] == "/"


def test_the_link_lets_in(shared: TestClient) -> None:
    """The link with its token opens the plan, without a phrase; another token does not."""
    assert shared.get(f"/enter/{'0' * 32}").status_code == 401
    assert shared.get("/p/rail/").status_code == 401
    said = shared.get(f"/enter/{share.link_token(PHRASE)}")
    assert said.status_code == 200
    assert 'http-equiv="refresh"' in said.text
    assert shared.get("/p/rail/").status_code == 200


@pytest.mark.parametrize("cookie", ["", "x", "9999999999.", "9999999999.0", "99.é", f"9999999999.{'0' * 64}"])
def test_a_made_up_cookie_does_not_let_in(shared: TestClient, cookie: str) -> None:
    """Only what this server sealed is a way in, and only until its day."""
    shared.cookies.set("brimful-8477-in", cookie.encode("ascii", "replace").decode())
    assert shared.get("/p/rail/").status_code == 401


def test_a_cookie_past_its_day_does_not_let_in(shared: TestClient) -> None:
    """A true seal on a day gone by."""
    gone = str(int(time.time()) - 1)
    shared.cookies.set("brimful-8477-in", f"{gone}.{share._seal('in', gone)}")
    assert shared.get("/p/rail/").status_code == 401


def test_guesses_are_slowed(shared: TestClient) -> None:
    """After a few wrong tries even the right phrase waits, and the page says how long."""
    tries = [enter(shared, f"wrong phrase {n}") for n in range(share.FREE_TRIES)]
    assert tries == [401] * share.FREE_TRIES
    token = token_on(shared.get("/enter").text)
    said = shared.post("/enter", data={"phrase": PHRASE, "token": token})
    assert said.status_code == 429
    assert int(said.headers["retry-after"]) >= 1
    assert "Too many wrong tries" in said.text
    assert shared.get(f"/enter/{share.link_token(PHRASE)}").status_code == 429


@given(st.lists(st.tuples(st.sampled_from("abc"), st.floats(0, 5000)), max_size=60))
def test_waits_grow_with_wrong_tries_and_never_for_others(tries: list[tuple[str, float]]) -> None:
    """Each address waits for its own wrong tries alone, no shorter after one more, and never beyond the longest."""
    patience, now, counts = share.Patience(), 0.0, dict.fromkeys("abc", 0)
    for address, pause in tries:
        now += pause
        before = {one: patience.wait_s(one, now) for one in "abc"}
        patience.wrong(address, now)
        counts[address] += 1
        for one in "abc":
            wait = patience.wait_s(one, now)
            assert wait >= before[one] if one == address else wait == before[one]
            assert 0 <= wait <= share.LONGEST_WAIT_S
            assert (wait > 0) or counts[one] < share.FREE_TRIES or one != address
    patience.right("a")
    assert patience.wait_s("a", now) == 0


def test_patience_has_room_for_only_so_many() -> None:
    """A flood of addresses does not fill the memory."""
    patience = share.Patience()
    for n in range(share.MOST_ADDRESSES + 50):
        patience.wrong(str(n), 0.0)
    assert len(patience._wrong) == share.MOST_ADDRESSES


def test_a_made_phrase_is_long_and_never_twice() -> None:
    """Four words of four letters, another each time."""
    made = {share.made_phrase() for _ in range(200)}
    assert len(made) == 200
    assert all(re.fullmatch(r"[a-z]{4}(-[a-z]{4}){3}", one) and len(one) >= share.LEAST_LETTERS for one in made)


def test_what_is_told_holds_no_secret() -> None:
    """The line on a request has address, way, path and answer; no query, no token, nothing that fools a terminal."""
    scope = {"method": "GET", "client": ("192.168.1.9", 5), "path": "/p/a b/", "raw_path": b"/p/a%20b/?c=secret"}
    assert access_line(scope, 200) == "192.168.1.9 GET /p/a%20b/ 200"
    scope |= {"path": "/enter/hush", "raw_path": b"/enter/hush"}
    assert access_line(scope, 200) == "192.168.1.9 GET /enter/… 200"
    scope |= {"path": "/\x1b[31m", "raw_path": b"/%1b[31m"}
    assert "\x1b" not in access_line(scope, 404)
    assert access_line({"method": "GET", "path": "/"}, 404).startswith("? GET")


# Folders of plans


@pytest.mark.parametrize("name", ["my square", "50% shade", "Höfe №1 🌱", 'the "big" one', "it's", "a+b&c=d;e", "#1?"])
def test_any_name_of_a_plan_works(tmp_path: Path, name: str) -> None:
    """Names with spaces, signs and letters of any kind: linked from the list, opened, and posted to."""
    plan_in(tmp_path, f"{name}.toml")
    plan_in(tmp_path, "other.toml")
    with visiting(tmp_path) as one:
        links = re.findall(r'href="(/p/[^"]+)"', one.get("/").text)
        assert len(links) == 2
        link = next(x for x in links if x != "/p/other/")
        page = one.get(link)
        assert page.status_code == 200
        said = one.post(
            f"{link}work/stop", data={"token": token_on(one.get(f"{link}edit").text)}, follow_redirects=False
        )
        assert (said.status_code, said.headers["location"]) == (303, link)
        assert one.get(said.headers["location"]).status_code == 200


def test_new_plans_show_up_and_gone_ones_go(tmp_path: Path) -> None:
    """A folder is looked at anew at each asking; one plan alone is opened at once."""
    with visiting(tmp_path) as one:
        assert "No plan here yet" in one.get("/").text
        first = plan_in(tmp_path, "first.toml")
        assert one.get("/").url.path == "/p/first/"
        plan_in(tmp_path, "second.toml")
        assert {"first", "second"} <= set(re.findall(r"/p/(\w+)/", one.get("/").text))
        assert one.get("/p/second/").status_code == 200
        first.unlink()
        assert one.get("/p/first/").status_code == 404


def test_links_out_of_the_folder_are_refused(tmp_path: Path) -> None:
    """A link to a plan elsewhere is not served; one within the folder is; a link to itself harms nobody."""
    out, inside = tmp_path / "out", tmp_path / "in"
    out.mkdir()
    inside.mkdir()
    plan_in(out, "secret.toml")
    plan_in(inside, "real.toml")
    (inside / "linked.toml").symlink_to(inside / "real.toml")
    (inside / "leaks.toml").symlink_to(out / "secret.toml")
    (inside / "round.toml").symlink_to(inside / "round.toml")
    (inside / "folder.toml").mkdir()
    assert [path.name for path in plans_at(inside)] == ["linked.toml", "real.toml"]
    with visiting(inside) as one:
        assert one.get("/p/leaks/").status_code == 404


def test_a_label_leads_to_the_only_plan(tmp_path: Path) -> None:
    """The address on a container's label leads on to the plan, whatever the names are; with two plans, to the list."""
    plan_in(tmp_path, "50% shade.toml")
    with visiting(tmp_path) as one:
        said = one.get("/container/rail%201%3F", follow_redirects=False)
        assert said.headers["location"] == "/p/50%25%20shade/container/rail%201%3F"
        plan_in(tmp_path, "b.toml")
        assert one.get("/container/rail%201", follow_redirects=False).headers["location"] == "/"


def test_a_plan_gone_is_said(tmp_path: Path) -> None:
    """A plan that was there a moment ago is missed in words, on its page and its parts."""
    path = plan_in(tmp_path)
    with visiting(path) as one:
        assert one.get("/p/rail/").status_code == 200
        path.unlink()
        for part in ("", "work", "drawing/x.svg"):
            said = one.get(f"/p/rail/{part}")
            assert said.status_code == 409
            assert "Is it still there?" in said.text


def test_a_broken_plan_is_served(tmp_path: Path) -> None:
    """A plan that cannot be read says on every page what to mend."""
    with visiting(plan_in(tmp_path, text='title = "x"\n[supply]\npressure = "3 in"\n')) as one:
        for page in ("", "water", "plants", "make", "keep", "notes", "doubts"):
            said = one.get(f"/p/rail/{page}")
            assert said.status_code == 200
            assert "is a length" in said.text


def test_an_answer_goes_out_at_once() -> None:
    """A connection does not hold small packets back (Nagle), which costs 40 ms where the other side waits to answer."""

    async def held_back() -> bool:
        taken = asyncio.get_running_loop().create_future()
        listener = _listen("127.0.0.1", 0)
        server = await asyncio.start_server(lambda _, writer: taken.set_result(writer), sock=listener)
        async with server:
            _, asking = await asyncio.open_connection(*listener.getsockname())
            answering = await taken
            held = answering.get_extra_info("socket").getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY) == 0
            for one in (asking, answering):
                one.close()
        return held

    assert not asyncio.run(held_back())
