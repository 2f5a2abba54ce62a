"""Editing on the page without script: only the field asked for changes, all can be undone, nobody's work is lost."""

import re
import tomllib
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.cli.bad_plans import GOOD
from tests.web.visitor import plan_in, token_on, visiting

PLAN = GOOD.replace('apart = "0.6 m"', 'apart   =   "0.6 m"   # measured on the rail').replace(
    "[supply]", "# by the door\n[supply]"
)
EDIT = "/p/rail/edit"
HOSTILE = "<img src=x onerror=alert(1)>\"'&{{7*7}}"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A plan with notes in it."""
    return plan_in(tmp_path, text=PLAN)


@pytest.fixture
def client(path: Path) -> Iterator[TestClient]:
    """A visitor of that plan."""
    with visiting(path) as one:
        yield one


def sent(client: TestClient, to: str, page: str = "", **fields: Any) -> Any:
    """What comes of sending a form on a page of the plan."""
    html = client.get(page or EDIT).text
    digest = re.search(r'name="digest" value="([0-9a-f]*)"', html)
    assert digest is not None
    form = {"token": token_on(html), "digest": digest[1], **fields}
    return client.post(to, data=form)


def saved(client: TestClient, **fields: str) -> Any:
    """What comes of saving fields, dots in their names."""
    return sent(client, f"{EDIT}/save", **{f"f:{name}": words for name, words in fields.items()})


def test_a_field_saved_changes_nothing_else(client: TestClient, path: Path) -> None:
    """One field is written anew; notes, blanks and order around it stay byte for byte."""
    answer = saved(client, **{"containers.1.apart": "70 cm"})
    assert answer.status_code == 200
    assert path.read_text() == PLAN.replace('"0.6 m"', '"70 cm"')
    assert "apart of rail: 0.6 m → 70 cm" in unescape(answer.text)


def test_a_whole_form_writes_only_what_differs(client: TestClient, path: Path) -> None:
    """A form of all fields of a section, one of them changed, writes that one; all as shown writes nothing."""
    html = client.get(f"{EDIT}?at=containers.1").text
    boxes = re.findall(r'<input id="f-[^"]*" name="f:([^"]*)"[^>]*? value="([^"]*)"', html)
    shown = {name: unescape(words) for name, words in boxes}
    assert len(shown) > 20
    saved(client, **shown)
    assert path.read_text() == PLAN
    saved(client, **{**shown, "containers.1.container.height": "40 cm"})
    assert path.read_text() == PLAN.replace('height = "38 cm"', 'height = "40 cm"')


def test_a_field_left_empty_is_taken_out(client: TestClient, path: Path) -> None:
    """An emptied field leaves the plan, and the page says what is taken instead."""
    answer = saved(client, **{"containers.1.apart": ""})
    assert "apart" not in tomllib.loads(path.read_text())["containers"][0]
    assert answer.status_code == 200


def test_undo_and_redo_lead_back_and_forth(client: TestClient, path: Path) -> None:
    """Every edit is taken back and done again to the byte."""
    saved(client, **{"containers.1.apart": "70 cm"})
    saved(client, title="Two")
    after = path.read_text()
    sent(client, f"{EDIT}/undo")
    sent(client, f"{EDIT}/undo")
    assert path.read_text() == PLAN
    sent(client, f"{EDIT}/redo")
    sent(client, f"{EDIT}/redo")
    assert path.read_text() == after


def test_a_change_elsewhere_is_never_overwritten(client: TestClient, path: Path) -> None:
    """A file changed beside the page stays; both versions are shown; "take mine" writes mine, and undo leads back."""
    html = client.get(EDIT).text
    digest = re.search(r'name="digest" value="([0-9a-f]*)"', html)
    assert digest is not None
    theirs = PLAN.replace("count = 3", "count = 4")
    path.write_text(theirs)
    answer = client.post(
        f"{EDIT}/save", data={"token": token_on(html), "digest": digest[1], "f:containers.1.apart": "70 cm"}
    )
    assert answer.status_code == 409
    assert path.read_text() == theirs
    assert "count = 4" in answer.text
    assert "70 cm" in answer.text
    mine = re.search(r"<textarea[^>]*>\n(.*?)</textarea>", answer.text, re.DOTALL)
    now = re.search(r'name="digest" value="([0-9a-f]*)"', answer.text)
    assert mine is not None
    assert now is not None
    form = {"token": token_on(answer.text), "digest": now[1], "text": unescape(mine[1])}
    assert client.post("/p/rail/text/save", data=form).status_code == 200
    assert path.read_text() == PLAN.replace('"0.6 m"', '"70 cm"')
    sent(client, f"{EDIT}/undo")
    assert path.read_text() == theirs


def test_a_plan_gone_meanwhile_is_not_made_anew_unasked(client: TestClient, path: Path) -> None:
    """A plan that was removed beside the page is told, with what was written, and not put back by itself."""
    html = client.get(EDIT).text
    digest = re.search(r'name="digest" value="([0-9a-f]*)"', html)
    assert digest is not None
    path.unlink()
    answer = client.post(f"{EDIT}/save", data={"token": token_on(html), "digest": digest[1], "f:title": "New"})
    assert answer.status_code == 409
    assert not path.exists()


def test_an_edit_that_stops_the_plan_is_saved_and_said(client: TestClient, path: Path) -> None:
    """A plan is data: what makes it unsound is written, told beside the field, and undone in one tap."""
    answer = saved(client, **{"containers.1.apart": "31 psi"})
    assert '"31 psi"' in path.read_text()
    assert "is a pressure" in answer.text
    page = client.get(f"{EDIT}?field=containers.1.apart").text
    assert "autofocus" in page
    sent(client, f"{EDIT}/undo", page=f"{EDIT}?at=containers.1")
    assert path.read_text() == PLAN


def test_a_value_is_checked_as_typed(client: TestClient) -> None:
    """A length is told in the other unit; a pressure for a length, and a plant nobody knows, are told wrong."""
    client.get(EDIT)
    asked = {"path": "containers.1.apart", "value": "6 ft"}
    assert client.get("/p/rail/check-field", params=asked).json()["understood"] == "6 ft = 1.83 m"
    assert "pressure" in client.get("/p/rail/check-field", params={**asked, "value": "6 psi"}).json()["problem"]
    plant = {"path": "containers.1.plants.1.plant", "value": "angelonja"}
    assert "angelonia" in client.get("/p/rail/check-field", params=plant).json()["problem"]


@pytest.mark.parametrize(
    "field", ["containers.1.nothing", "nowhere", "containers.9.apart.x", "__class__", ".", "a" * 400]
)
def test_a_field_that_is_not_there_is_not_found(client: TestClient, path: Path, field: str) -> None:
    """A field no plan has is 404 to save and to check; the file stays."""
    assert saved(client, **{field: "1"}).status_code == 404
    assert client.get("/p/rail/check-field", params={"path": field, "value": "1"}).status_code == 404
    assert path.read_text() == PLAN


def test_a_row_that_is_not_there_is_told(client: TestClient, path: Path) -> None:
    """A field of a row beyond the last is refused in words; the file stays."""
    answer = saved(client, **{"containers.9.apart": "1 m"})
    assert answer.status_code == 200
    assert 'role="alert"' in answer.text
    assert path.read_text() == PLAN


def test_hostile_words_stand_as_words(client: TestClient, path: Path) -> None:
    """Markup typed into a field is kept to the letter and shown inert, in fields, sentences, and the text."""
    answer = saved(client, title=HOSTILE, **{"containers.1.name": f"{HOSTILE} row"})
    assert tomllib.loads(path.read_text())["title"] == HOSTILE
    for page in (answer.text, client.get(f"{EDIT}?at=containers.1").text, client.get("/p/rail/text").text):
        assert "<img src=x" not in page
        assert "{{7*7}}" in unescape(page)


def test_rows_are_added_doubled_moved_and_taken_out(client: TestClient, path: Path) -> None:
    """A row added, doubled under a name of its own, moved up, and taken out: at the end the text is the first."""
    sent(client, f"{EDIT}/entries", do="add", at="containers")
    sent(client, f"{EDIT}/entries", do="duplicate", at="containers.1")
    names = [row["name"] for row in tomllib.loads(path.read_text())["containers"]]
    assert names == ["rail", "rail b", "row 2"]
    sent(client, f"{EDIT}/entries", do="up", at="containers.3")
    assert [row["name"] for row in tomllib.loads(path.read_text())["containers"]] == ["rail", "row 2", "rail b"]
    sent(client, f"{EDIT}/entries", do="remove", at="containers.2")
    sent(client, f"{EDIT}/entries", do="remove", at="containers.2")
    assert tomllib.loads(path.read_text()) == tomllib.loads(PLAN)
    assert path.read_text().startswith(PLAN.rstrip("\n"))


@pytest.mark.parametrize("kind", ["zone", "shade", "recipe"])
def test_a_zone_a_shade_and_a_planting_can_be_added(client: TestClient, path: Path, kind: str) -> None:
    """Each new entry reads, and its section opens."""
    answer = sent(client, f"{EDIT}/entries", do="add", at=kind)
    assert answer.status_code == 200
    assert len(tomllib.loads(path.read_text())[kind]) == 1
    assert 'id="open-title"' in answer.text


@pytest.mark.parametrize(
    ("do", "at"), [("burn", "containers.1"), ("remove", "site"), ("remove", "containers"), ("add", "x")]
)
def test_what_cannot_be_done_to_an_entry_is_not_found(client: TestClient, path: Path, do: str, at: str) -> None:
    """Only rows, zones, plantings, shade and plants are added and taken out."""
    assert sent(client, f"{EDIT}/entries", do=do, at=at).status_code == 404
    assert path.read_text() == PLAN


def test_a_plant_is_counted_chosen_and_replaced(client: TestClient, path: Path) -> None:
    """A count is set, a plant added from the list, another put in its place; the rest of the list stays."""
    saved(client, **{"containers.1.plants.2.count": "5"})
    assert '["1 angelonia", "5 zonal geranium", "2 calibrachoa"]' in path.read_text()
    page = "/p/rail/pick?at=containers.1.plants&name=lantana"
    assert "lantana" in client.get(page).text.lower()
    plant = re.search(r'name="plant" value="([^"]+)"', client.get(page).text)
    assert plant is not None
    sent(client, "/p/rail/pick/add", page=page, plant=plant[1], count="2", at="containers.1.plants")
    assert tomllib.loads(path.read_text())["containers"][0]["plants"][-1] == f"2 {plant[1]}"
    sent(client, "/p/rail/pick/add", page=page, plant=plant[1], at="containers.1.plants.2")
    assert tomllib.loads(path.read_text())["containers"][0]["plants"][1] == f"5 {plant[1]}"


def test_plants_that_suit_are_told_by_words(client: TestClient) -> None:
    """The list of plants shows swatches with their colours in words, and finds by name and habit."""
    html = client.get("/p/rail/pick?at=containers.1.plants&habit=trailing").text
    assert 'role="img" aria-label="' in html
    assert "trailing" in html
    assert client.get("/p/rail/pick?at=containers.7.plants").status_code == 404
    assert client.get("/p/rail/pick?at=title").status_code == 404


def test_the_whole_text_is_saved_and_found_line_by_line(client: TestClient, path: Path) -> None:
    """A text that is no plan is saved as typed, told with its line, and can be mended on the same page."""
    broken = PLAN.replace('"0.6 m"', "0.6 m")
    answer = sent(client, "/p/rail/text/save", page="/p/rail/text", text=broken.replace("\n", "\r\n"))
    assert path.read_text() == broken
    line = broken[: broken.index("0.6 m")].count("\n") + 1
    assert f"Line {line}." in answer.text
    assert client.get(EDIT).url.path == "/p/rail/text"
    sent(client, "/p/rail/text/save", page="/p/rail/text", text=PLAN)
    assert path.read_text() == PLAN


def test_two_plans_are_edited_apart(tmp_path: Path) -> None:
    """An edit of one plan touches no other, and each has its own undo."""
    one, two = plan_in(tmp_path, "one.toml", PLAN), plan_in(tmp_path, "two.toml", PLAN)
    with visiting(one, two) as client:
        sent(client, "/p/one/edit/save", page="/p/one/edit", **{"f:title": "One"})
        sent(client, "/p/two/edit/undo", page="/p/two/edit")
        assert 'title = "One"' in one.read_text()
        assert two.read_text() == PLAN


def test_nothing_is_written_without_the_token(client: TestClient, path: Path) -> None:
    """A form without the page's token changes nothing, whatever it asks for."""
    client.get(EDIT)
    for to in ("save", "undo", "redo", "entries"):
        assert client.post(f"{EDIT}/{to}", data={"f:title": "x", "do": "add", "at": "zone"}).status_code == 403
    assert client.post("/p/rail/text/save", data={"text": "x"}).status_code == 403
    assert path.read_text() == PLAN


SITE = PLAN.replace("count = 3", 'count = 3\nstart = ["1 m", "2 m"]') + (
    '\n[[shade]]  # the shed\nkind = "wall"\nheight = "2 m"\nstart = ["0 m", "5 m"]\nend = ["6 m", "5 m"]\n'
)


@pytest.mark.parametrize(
    ("kind", "sent_east", "sent_north", "old", "new"),
    [
        ("row", "0.5", "-1", '["1 m", "2 m"]', '["4.9 ft", "3.3 ft"]'),
        ("shade", "1.524", "0", '["0 m", "5 m"]', '["5 ft", "16.4 ft"]'),
    ],
)
def test_what_is_dragged_is_written_in_the_plans_units(
    tmp_path: Path, kind: str, sent_east: str, sent_north: str, old: str, new: str
) -> None:
    """A row, or a wall with both its ends, moved by metres stands in the plan in its units; notes stay."""
    path = plan_in(tmp_path, text=SITE)
    with visiting(path) as client:
        answer = sent(client, f"{EDIT}/move", kind=kind, number="1", east=sent_east, north=sent_north)
        assert answer.status_code == 200
    after = path.read_text()
    assert SITE.replace(old, new) == after.replace('["24.7 ft", "16.4 ft"]', '["6 m", "5 m"]')


def test_a_rows_end_dragged_turns_it(tmp_path: Path) -> None:
    """The last container dragged from the east to the north turns the row; dragged further away it spaces it too."""
    path = plan_in(tmp_path, text=SITE.replace("title", 'units = "metric"\ntitle'))
    with visiting(path) as client:
        sent(client, f"{EDIT}/move", kind="end", number="1", east="-1.2", north="1.2")
        row = tomllib.loads(path.read_text())["containers"][0]
        assert (row["heading"], row["apart"]) == ("0 deg", "0.6 m")
        sent(client, f"{EDIT}/move", kind="end", number="1", east="0", north="1.2")
        row = tomllib.loads(path.read_text())["containers"][0]
        assert (row["heading"], row["apart"]) == ("0 deg", "1.2 m")


@pytest.mark.parametrize(
    ("form", "status"),
    [
        ({"kind": "row", "number": "9"}, 404),
        ({"kind": "house", "number": "1"}, 404),
        ({"kind": "row", "number": "x"}, 404),
        ({"kind": "row", "number": "1", "east": "nan"}, 400),
        ({"kind": "row", "number": "1", "east": "1e9"}, 400),
        ({"kind": "row", "number": "1", "east": "east"}, 400),
        ({"kind": "row", "number": "1", "east": "5000"}, 200),
    ],
)
def test_nothing_is_dragged_out_of_the_world(tmp_path: Path, form: dict[str, str], status: int) -> None:
    """What is not there, no number, or further than a plan reaches, is refused; nothing is written."""
    path = plan_in(tmp_path, text=SITE)
    with visiting(path) as client:
        assert sent(client, f"{EDIT}/move", **form).status_code == status
    assert path.read_text() == SITE
