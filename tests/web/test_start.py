"""A first plan from a few questions, a variant beside a plan, and two plans compared."""

import re
import tomllib
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.cli.bad_plans import GOOD
from tests.web.visitor import plan_in, token_on, until_done, visiting

from brimful.plan.answers import QUESTIONS
from brimful.services import open_plan

ANSWERS = {"units": "metric", "title": "Quay & <b>wall</b>", "count": "4", "top": "60 cm", "height": "50 cm"}


def made(client: TestClient, **answers: str) -> Any:
    """What comes of answers sent."""
    return client.post("/start/make", data={"token": token_on(client.get("/start").text), **answers})


def test_an_empty_folder_leads_to_the_questions(tmp_path: Path) -> None:
    """Where no plan is, the first page offers to make one; every question has its label and its reason."""
    with visiting(tmp_path) as client:
        assert 'href="/start"' in client.get("/").text
        page = unescape(client.get("/start").text)
    for question in QUESTIONS:
        assert question.asks in page
        assert question.why in page


def test_answers_become_a_plan_that_designs(tmp_path: Path) -> None:
    """The plan stands in the folder under a plain name, can be worked out, and its Row page follows."""
    with visiting(tmp_path) as client:
        answer = made(client, **ANSWERS)
        assert answer.url.path == "/p/quay-b-wall-b/"
        assert answer.status_code == 200
        assert "<b>wall</b>" not in answer.text
    path = tmp_path / "quay-b-wall-b.toml"
    assert tomllib.loads(path.read_text())["title"] == ANSWERS["title"]
    assert open_plan(path)[1] is not None


def test_a_plan_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    """A second plan of one name gets a number; the first, and a dangling link of that name, stay."""
    plan_in(tmp_path, "row.toml", GOOD)
    (tmp_path / "row-2.toml").symlink_to(tmp_path / "nowhere.toml")
    with visiting(tmp_path) as client:
        assert made(client, **{**ANSWERS, "title": "Row"}).status_code == 200
    assert (tmp_path / "row.toml").read_text() == GOOD
    assert (tmp_path / "row-3.toml").exists()
    assert not (tmp_path / "nowhere.toml").exists()


@pytest.mark.parametrize("title", ["../up", "/etc/passwd", "a\\b", "..", "\0", "CON:", "x" * 300, "Ünïcode", ""])
def test_no_name_leads_out_of_the_folder(tmp_path: Path, title: str) -> None:
    """Whatever the title, one new file stands in the folder itself, of plain letters."""
    folder = tmp_path / "plans"
    folder.mkdir()
    with visiting(folder) as client:
        made(client, **{**ANSWERS, "title": title})
    assert [path for path in tmp_path.iterdir() if path != folder] == []
    assert all(re.fullmatch(r"[a-z0-9-]{1,60}\.toml", path.name) for path in folder.iterdir())


def test_each_wrong_answer_is_told_beside_its_question(tmp_path: Path) -> None:
    """All that is wrong is told at once, what was answered stands still, and nothing is written."""
    with visiting(tmp_path) as client:
        answer = made(client, count="none", top="60 psi", title="Kept <i>so</i>")
        assert answer.status_code == 422
        page = unescape(answer.text)
        assert "3 answers want another look" in page
        assert "60 psi" in page
        assert 'value="Kept <i>so</i>"' in page
        assert "<i>so</i>" not in answer.text
    assert list(tmp_path.iterdir()) == []


def test_a_sentence_follows_the_answers(tmp_path: Path) -> None:
    """While answers are given the page is told what they come to, and what is wrong with those given so far."""
    with visiting(tmp_path) as client:
        assert client.get("/start/live", params={"count": "4"}).json() == {"problems": {}, "sentence": ""}
        assert "top" in client.get("/start/live", params={"top": "60 psi"}).json()["problems"]
        assert "minute" in client.get("/start/live", params=ANSWERS).json()["sentence"]
    assert list(tmp_path.iterdir()) == []


def test_one_plan_alone_has_no_place_for_another(tmp_path: Path) -> None:
    """Where a file is served, not its folder, no plan is made and no variant, and the page says how."""
    path = plan_in(tmp_path)
    with visiting(path) as client:
        assert "brimful serve FOLDER" in client.get("/start").text
        assert made(client, **ANSWERS).status_code == 409
        token = token_on(client.get("/p/rail/edit").text)
        answer = client.post("/p/rail/edit/variant", data={"token": token})
        assert answer.status_code == 409
        assert "brimful serve FOLDER" in answer.text
    assert list(tmp_path.iterdir()) == [path]


def test_a_variant_stands_beside_and_is_compared(tmp_path: Path) -> None:
    """A variant is a copy to the byte; changed, it differs from its plan in the figures and in that line alone."""
    path = plan_in(tmp_path)
    with visiting(tmp_path) as client:
        html = client.get("/p/rail/edit").text
        answer = client.post("/p/rail/edit/variant", data={"token": token_on(html)})
        assert answer.url.path == "/p/rail b/edit"
        copy = tmp_path / "rail b.toml"
        assert copy.read_bytes() == path.read_bytes()
        assert "come to the same" in client.get("/compare?a=rail&b=rail+b").text
        digest = re.search(r'name="digest" value="([0-9a-f]*)"', answer.text)
        assert digest is not None
        form = {"token": token_on(html), "digest": digest[1], "f:containers.1.count": "5"}
        client.post("/p/rail%20b/edit/save", data=form)
        for home in ("/p/rail/", "/p/rail%20b/"):
            until_done(client, home)
        page = client.get("/compare?a=rail&b=rail+b").text
    assert re.search(r'<th scope="row">containers</th><td class="n">3</td><td class="n">5</td>', page)
    assert "hours of work to build" in page
    assert page.count('class="theirs"') == page.count('class="mine"') == 1
    assert path.read_text() == GOOD


def test_a_plan_to_compare_must_be_there(tmp_path: Path) -> None:
    """A plan nobody serves is not found; one plan alone is told how to get another; a broken one is said so."""
    plan_in(tmp_path)
    plan_in(tmp_path, "broken.toml", "title = 1")
    with visiting(tmp_path) as client:
        for asked in ("", "?a=none", "?a=rail&b=../rail", "?b=rail"):
            assert client.get(f"/compare{asked}").status_code == 404
        assert "<option>broken</option>" in client.get("/compare?a=rail").text
        assert "cannot be worked out" in client.get("/compare?a=rail&b=broken").text
