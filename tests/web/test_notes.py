"""Notes from phones and forms: each taken once, none lost, none believed to be more than words."""

import json
import re
import threading
import time
import uuid
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient
from tests.cli.bad_plans import GOOD, NORMALS
from tests.web.visitor import PLACE, plan_in, token_on, until_done, visiting

from brimful.journal import KINDS
from brimful.services import entries_of, journal_of, note
from brimful.services.journal import NoteWish
from brimful.web import dated
from brimful.web.bench import Sight

HOME = "/p/rail/"
GROWING = GOOD.replace("[[containers]]", f"{NORMALS}\n\n[[containers]]")
DAY = date(2026, 7, 15)
HOSTILE = """<script>alert(1)</script>" onload='x' {{ 7*7 }} </textarea> ' OR 1=1 --"""


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    """A visitor of a plan with three pots."""
    with visiting(plan_in(tmp_path)) as one:
        yield one


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """The plan that the client visits."""
    return tmp_path / "rail.toml"


def item(**more: Any) -> dict[str, Any]:
    """An entry as a phone writes it down."""
    made = "2026-07-02T06:40:00-04:00"
    return {"id": str(uuid.uuid4()), "made_at": made, "place": "rail 1", "said": "dry", "by": "Ann", **more}


def sent(client: TestClient, items: Any) -> Any:
    """Send entries as the page does: with a token asked for anew."""
    token = client.get(f"{HOME}entries/token").json()["token"]
    return client.post(f"{HOME}entries", json=items, headers={"X-Brimful-Token": token})


def outcomes(client: TestClient, items: list[Any]) -> list[str]:
    """What came of each."""
    answer = sent(client, items)
    assert answer.status_code == 200
    return [one["outcome"] for one in answer.json()["entries"]]


def form_on(page: str, button: str) -> dict[str, str]:
    """What the form with a button carries unseen, by the name of each field."""
    form = next(form for form in re.findall(r"<form class=\"note.*?</form>", page, re.DOTALL) if f">{button}<" in form)
    return dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', form))


def tap(client: TestClient, page: str, button: str, **more: str) -> Any:
    """Press a button on a page without script."""
    return client.post(f"{HOME}note", data={**form_on(page, button), **more})


# what phones send


def test_an_entry_sent_twice_is_written_once(client: TestClient, plan: Path) -> None:
    """The same entry again is known, and the journal holds one, made when and where the phone says."""
    one = item()
    assert outcomes(client, [one]) == ["new"]
    assert outcomes(client, [one, one]) == ["known", "known"]
    (entry,) = entries_of(plan)
    assert (entry.id, entry.place, entry.kind, entry.value, entry.by) == (one["id"], "rail 1", "finger", 0.0, "Ann")
    assert entry.made_at == datetime(2026, 7, 2, 10, 40, tzinfo=UTC)


def test_three_thousand_that_waited_are_written_once_each(client: TestClient, plan: Path) -> None:
    """A long queue, sent in batches twice over, makes no doubles and loses none."""
    queue = [item(said=f"note number {n}") for n in range(3000)]
    batches = [queue[at : at + 500] for at in range(0, len(queue), 500)]
    assert [set(outcomes(client, batch)) for batch in batches] == [{"new"}] * 6
    assert [set(outcomes(client, batch)) for batch in batches] == [{"known"}] * 6
    written = entries_of(plan, raw=True)
    assert sorted(one.id for one in written) == sorted(one["id"] for one in queue)
    assert {one.words for one in written} == {f"number {n}" for n in range(3000)}


def test_twenty_phones_at_once(client: TestClient, plan: Path) -> None:
    """Twenty who send at the same time, each some of the others' entries too, lose none and double none."""
    shared = [item(said="moist") for _ in range(5)]
    own = [[item(said=f"note {phone}-{n}") for n in range(5)] for phone in range(20)]

    def phone(number: int) -> list[str]:
        one = TestClient(client.app, base_url=PLACE)
        return outcomes(one, [*own[number], *shared])

    with ThreadPoolExecutor(20) as phones:
        came = list(phones.map(phone, range(20)))
    assert all(one[:5] == ["new"] * 5 for one in came)
    assert sum(one[5:].count("new") for one in came) == 5
    assert len(entries_of(plan, raw=True)) == 105


def test_a_refused_entry_says_why_and_holds_up_none(client: TestClient, plan: Path) -> None:
    """Between two sound entries each unsound one is told by itself, in words that say what to do."""
    wrong = [
        (item(place="rail 9"), "no place of the plan"),
        (item(said="weight"), "weight"),
        (item(said="ran 5 min"), "it belongs to"),
        (item(made_at="2026-07-02T06:40:00"), "offset"),
        (item(made_at="yesterday"), "made_at"),
        (item(id="7"), "UUID"),
        (item(id=None), "UUID"),
        (item(colour="red"), "unknown: colour"),
        (item(kind="note", words="x"), "beside said"),
        (item(said=["dry"]), "words were expected"),
        (item(said="note " + "x" * 3000), "at most 2000"),
        (item(said="note \x00"), "control"),
        (item(place="\ud800"), "control"),
        (item(said="withdrawn"), "no entry was given"),
        ("dry", "one entry in { }"),
        (7, "one entry in { }"),
        (None, "one entry in { }"),
        ([], "one entry in { }"),
        ({}, "missing: id, made_at, kind"),
    ]  # fmt: skip
    first, last = item(), item()
    token = client.get(f"{HOME}entries/token").json()["token"]
    body = json.dumps([first, *(one for one, _ in wrong), last])  # half signs go as \\ud800, as phones may send them
    answer = client.post(f"{HOME}entries", content=body, headers={"X-Brimful-Token": token}).json()
    came = answer["entries"]
    assert [one["outcome"] for one in came] == ["new", *["refused"] * len(wrong), "new"]
    for one, (_, words) in zip(came[1:-1], wrong, strict=True):
        assert words in one["words"]
    assert {one.id for one in entries_of(plan)} == {first["id"], last["id"]}


def test_an_id_that_another_entry_has_is_refused(client: TestClient, plan: Path) -> None:
    """Other words under an id that is taken are not lost unseen: the phone is told, and what stood stays."""
    one = item()
    sent(client, [one])
    (came,) = sent(client, [{**one, "said": "wet"}]).json()["entries"]
    assert came["outcome"] == "refused"
    assert "write this one down anew" in came["words"]
    assert [entry.value for entry in entries_of(plan)] == [0.0]


def test_when_an_entry_was_received_is_not_for_the_phone_to_say(client: TestClient, plan: Path) -> None:
    """A line of a journal is taken too, received now whatever it says."""
    line = {"id": str(uuid.uuid4()), "made_at": "2026-07-02T06:40:00Z", "kind": "note", "words": "x",
            "received_at": "2001-01-01T00:00:00Z"}  # fmt: skip
    assert outcomes(client, [line]) == ["new"]
    with journal_of(plan) as journal:
        (entry,) = journal.as_received()
    assert entry.received_at is not None
    assert datetime.now(UTC) - entry.received_at < timedelta(minutes=5)


@pytest.mark.parametrize("body", ["", "{}", "7", "[", "null", "[" * 50_000, "[" + "9" * 5000 + "]", '{"a":[]}'])
def test_what_is_no_list_is_refused_in_words(client: TestClient, plan: Path, body: str) -> None:
    """Anything but a list of entries in JSON is told so or refused entry by entry, and writes nothing."""
    token = client.get(f"{HOME}entries/token").json()["token"]
    answer = client.post(f"{HOME}entries", content=body, headers={"X-Brimful-Token": token})
    assert answer.status_code == 400
    assert "Nothing was taken down" in answer.json()["words"]
    assert not plan.with_suffix(".journal").exists()


def test_more_than_five_hundred_at_once_are_too_many(client: TestClient, plan: Path) -> None:
    """One more than may be is refused whole, in words, and nothing is written."""
    answer = sent(client, [item() for _ in range(501)])
    assert answer.status_code == 409
    assert "at most 500" in answer.json()["words"]
    assert entries_of(plan) == ()


def test_without_a_token_nothing_is_taken(client: TestClient, plan: Path) -> None:
    """Entries that another page may have sent are refused, and the same ones with a fresh token are taken."""
    one = item()
    assert client.post(f"{HOME}entries", json=[one]).status_code == 403
    assert client.post(f"{HOME}entries", json=[one], headers={"X-Brimful-Token": "stale"}).status_code == 403
    assert outcomes(client, [one]) == ["new"]


def test_a_clock_that_is_wrong_is_remarked_on(client: TestClient, plan: Path) -> None:
    """An entry from the future is taken down as given, and said to be odd."""
    answer = sent(client, [item(made_at="2999-01-01T00:00:00Z")]).json()
    assert [one["outcome"] for one in answer["entries"]] == ["new"]
    assert "lies ahead of the clock" in answer["remarks"][0]


def test_a_plan_with_errors_takes_no_notes_but_loses_none(client: TestClient, plan: Path) -> None:
    """While the plan cannot be read the phone is told so and keeps what it has; afterwards it is taken."""
    one = item()
    plan.write_text("title = ", encoding="utf-8")
    answer = sent(client, [one])
    assert answer.status_code == 409
    assert answer.json()["words"]
    plan.write_text(GOOD, encoding="utf-8")
    assert outcomes(client, [one]) == ["new"]


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(said=st.text(max_size=60), place=st.sampled_from(["rail 1", "rail", "zone 1", "", "all"]))
def test_any_words_are_taken_or_refused_in_words(client: TestClient, said: str, place: str) -> None:
    """Whatever is written, each entry is answered by itself, and nothing breaks."""
    (came,) = sent(client, [item(said=said, place=place)]).json()["entries"]
    assert came["outcome"] in ("new", "refused")
    assert bool(came["words"]) == (came["outcome"] == "refused")


# forms without script


def test_a_tap_is_noted_and_undone(client: TestClient, plan: Path) -> None:
    """Dry on the container's page is in the journal, said on the page, and taken back by one more tap."""
    page = client.get(f"{HOME}container/rail 2").text
    back = tap(client, page, "Dry", said="dry", by=" Bo ")
    assert back.url.path == f"{HOME}container/rail 2"
    assert re.search(r"Noted: finger test dry, today \d\d:\d\d", back.text)
    (entry,) = entries_of(plan)
    assert (entry.place, entry.value, entry.by) == ("rail 2", 0.0, "Bo")
    tap(client, back.text, "Undo", said="withdrawn")
    assert entries_of(plan) == ()
    assert [one.kind for one in entries_of(plan, raw=True)] == ["finger", "withdrawn"]


def test_a_second_tap_writes_nothing_and_another_button_does(client: TestClient, plan: Path) -> None:
    """The same button of the same page twice is one entry; another button of it is another."""
    page = client.get(f"{HOME}container/rail 2").text
    for said in ("dry", "dry", "fed", "dry"):
        assert tap(client, page, "Dry", said=said).status_code == 200
    assert sorted(one.kind for one in entries_of(plan)) == ["fed", "finger"]


def test_the_same_words_from_an_old_page_are_another_entry(
    client: TestClient, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A page left open since the morning notes again in the evening what it noted then."""
    page = client.get(f"{HOME}container/rail 2").text
    tap(client, page, "Dry", said="dry")
    monkeypatch.setattr("brimful.web.parts.journal.SECOND_TAP", timedelta(0))
    assert "Noted: finger test dry" in tap(client, page, "Dry", said="dry").text
    assert len(entries_of(plan)) == 2


@pytest.mark.parametrize(
    ("button", "fields", "kind", "value"),
    [
        ("Dry", ["wet"], "finger", 2.0),
        ("Caught", ["caught", "300", "mL", "in", "5", "min"], "catch", 0.3),
        ("Weighs", ["weight", "61", "lb"], "weight", 61 * 0.45359237),  # the pound: exact by definition
        ("Rail", ["problem", "drips at the stake"], "problem", None),
        ("Rail", ["replaced", "one angelonia"], "replaced", None),
        ("Dry", ["deadheaded"], "deadheaded", None),
        ("Dry", ["mended"], "mended", None),
    ],
)
def test_what_the_buttons_send_is_what_was_meant(
    client: TestClient, plan: Path, button: str, fields: list[str], kind: str, value: float | None
) -> None:
    """The fields of a form, joined, are the words that `brimful note` takes."""
    page = client.get(f"{HOME}container/rail 1").text
    client.post(f"{HOME}note", data={**form_on(page, "Dry"), "said": fields})
    (entry,) = entries_of(plan)
    assert entry.kind == kind
    assert entry.value == (None if value is None else pytest.approx(value))


def test_ran_is_noted_for_the_zone_of_the_container(client: TestClient, plan: Path) -> None:
    """Minutes that the water ran belong to the zone, whichever container's page they are noted on."""
    page = client.get(f"{HOME}container/rail 1").text
    form = next(form for form in re.findall(r"<form class=\"note.*?</form>", page, re.DOTALL) if 'value="ran"' in form)
    hidden = dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', form))
    client.post(f"{HOME}note", data={**hidden, "said": ["ran", "12", "min"]})
    (entry,) = entries_of(plan)
    assert (entry.kind, entry.place, entry.value) == ("ran", "zone 1", 720.0)


def test_what_is_not_understood_is_given_back(client: TestClient, plan: Path) -> None:
    """A slip of the pen is told, with what was written still in the form; nothing was taken down."""
    page = client.get(f"{HOME}notes?c=rail 1").text
    back = client.post(f"{HOME}note", data={**form_on(page, "Dry"), "said": "weight heavy", "at": "at noon"})
    assert back.status_code == 422
    assert "Not noted" in back.text
    assert 'value="weight heavy"' in back.text
    assert entries_of(plan) == ()


def test_a_correction_is_a_new_entry(client: TestClient, plan: Path) -> None:
    """Correcting leads back to the list with the new words alone; the old ones stay in the journal."""
    old = note(plan, NoteWish("rail 1", "weight 20 kg")).entry
    page = client.get(f"{HOME}notes?correct={old.id}").text
    assert "Correct: today" in page
    hidden = form_on(page, "Correct")
    assert hidden["corrects"] == old.id
    client.post(f"{HOME}note", data={**hidden, "place": "rail 1", "said": "weight 21 kg"})
    (entry,) = entries_of(plan)
    assert (entry.value, entry.corrects) == (21.0, old.id)
    assert len(entries_of(plan, raw=True)) == 2


def test_another_time_is_taken_by_the_clock_here(client: TestClient, plan: Path) -> None:
    """The field of day and time, as browsers send it, is when it was seen."""
    page = client.get(f"{HOME}notes").text
    client.post(
        f"{HOME}note", data={**form_on(page, "Note"), "place": "rail 1", "said": "dry", "at": "2026-07-02T06:40"}
    )
    (entry,) = entries_of(plan)
    assert entry.made_at.astimezone().replace(tzinfo=None) == datetime(2026, 7, 2, 6, 40)


# the lens


def test_hostile_words_are_only_words(client: TestClient, plan: Path) -> None:
    """Marks, quotes and templates in any field come back as text on every page that shows them."""
    (came,) = sent(client, [item(said=f"note {HOSTILE}", by=HOSTILE[:100])]).json()["entries"]
    assert came["outcome"] == "new"
    for path in ("notes", "notes?c=rail 1", f"notes?correct={came['id']}", f"container/rail 1?noted={came['id']}"):
        page = client.get(HOME + path).text
        assert "alert(1)" in page
        assert "<script>alert" not in page
        assert "{{ 7*7 }}" in page
    back = client.post(f"{HOME}note", data={"token": token_on(page), "said": HOSTILE, "place": HOSTILE})
    assert back.status_code == 422
    assert "<script>alert" not in back.text


def test_the_row_shows_what_was_felt_last(client: TestClient, plan: Path) -> None:
    """The last finger test of each container stands on it, an older one does not, and none has none."""
    note(plan, NoteWish("rail 1", "wet", at="2020-07-01 7:00"))
    note(plan, NoteWish("rail 1", "dry"))
    page = client.get(f"{HOME}notes").text
    assert re.search(r'aria-label="rail 1: dry\ntoday"', page)
    assert re.search(r'aria-label="rail 2: 2\n', page)
    assert "Noted last, today" in page


def test_entries_are_paged_newest_first(client: TestClient, plan: Path) -> None:
    """A long journal shows fifty at a time, each once, and leads from page to page."""
    start = datetime(2026, 7, 1, tzinfo=UTC)
    queue = [item(said=f"note number {n}.", made_at=(start + timedelta(hours=n)).isoformat()) for n in range(120)]
    outcomes(client, queue)
    seen: list[int] = []
    for at in (1, 2, 3):
        page = client.get(f"{HOME}notes?page={at}").text
        shown = page[page.index("Written down") :]
        seen += [int(n) for n in re.findall(r"note: number (\d+)\.", shown)]
        assert ("Older" in shown, "Newer" in shown) == (at < 3, at > 1)
    assert seen == list(range(119, -1, -1))
    for odd in ("0", "-1", "x", "99999999", "²", "4"):
        assert client.get(f"{HOME}notes?page={odd}").status_code == 200


def test_a_chosen_container_shows_what_concerns_it(client: TestClient, plan: Path) -> None:
    """Entries of the container, its row, its zone and the whole are there; another container's are not."""
    for place in ("rail 1", "rail 2", "rail", "zone 1", "all"):
        note(plan, NoteWish(place, f"note of {place}."))
    page = client.get(f"{HOME}notes?c=rail 1").text
    shown = page[page.index("Written down") :]
    assert sorted(re.findall(r"note: of ([\w ]+)\.", shown)) == ["all", "rail", "rail 1", "zone 1"]


def test_the_journal_is_carried_away_whole(client: TestClient, plan: Path) -> None:
    """The file holds every entry as it was taken down, corrections among them, and reads back."""
    from brimful.journal.lines import read_lines

    assert client.get(f"{HOME}journal.jsonl").text == ""
    assert not plan.with_suffix(".journal").exists()
    one = item()
    sent(client, [one, item(said="withdrawn", corrects=one["id"])])
    read = read_lines(client.get(f"{HOME}journal.jsonl").content)
    assert read.problems == ()
    assert [entry.kind for entry in read.entries] == ["finger", "withdrawn"]


def test_looking_at_a_page_makes_no_journal(client: TestClient, plan: Path) -> None:
    """Every page of a plan whose crew never noted anything leaves no file beside it."""
    for path in ("", "notes", "keep", "work", "container/rail 1", "today.json"):
        client.get(HOME + path)
    until_done(client, HOME)
    assert not plan.with_suffix(".journal").exists()


def test_a_journal_that_cannot_be_read_is_said(client: TestClient, plan: Path) -> None:
    """A broken file is told on the page in place of the entries; the other pages stand, and notes wait."""
    plan.with_suffix(".journal").write_bytes(b"no database, " * 100)
    page = client.get(f"{HOME}notes")
    assert page.status_code == 200
    assert "rail.journal" in page.text
    assert client.get(HOME).status_code == 200
    assert sent(client, [item()]).status_code == 409


def test_every_example_of_the_page_is_understood() -> None:
    """What the page offers as examples, each reads as the kind it stands for."""
    from brimful.journal.reading import read_said
    from brimful.quantities import System
    from brimful.web.pages.notes import examples

    for system in System:
        kinds = [read_said(one).kind for one in examples(system)]
        assert set(kinds) <= set(KINDS)
        assert kinds == ["finger", "weight", "catch", "ran", "problem", "note"]


# today


@pytest.fixture
def growing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[TestClient]:
    """A visitor in July of a plan with its weather."""
    for place in (
        "dated.by_the_clock",
        "pages.row.today",
        "pages.notes.today",
        "pages.keep.today",
        "parts.today.today",
    ):
        monkeypatch.setattr(f"brimful.web.{place}", lambda: DAY)
    with visiting(plan_in(tmp_path, text=GROWING)) as one:
        one.get(HOME)
        until_done(one, HOME)
        yield one


def test_today_as_data_is_what_the_command_prints(growing: TestClient, plan: Path) -> None:
    """A controller gets the same as `brimful today --json`, of today or of a day it names."""
    from brimful.render.as_json import to_data
    from brimful.services import work_out_today

    note(plan, NoteWish("rail 1", "dry", at="2026-07-14 7:00"))
    got = growing.get(f"{HOME}today.json")
    assert got.status_code == 200
    assert got.json() == json.loads(json.dumps(to_data(work_out_today(plan, on=DAY).today)))
    assert growing.get(f"{HOME}today.json?on=2026-05-01").json()["on"] == "2026-05-01"


def test_the_guide_names_fields_that_there_are() -> None:
    """Each field that the guide explains to a controller is one of today's or of its zones'."""
    from dataclasses import fields

    from brimful.design.today.model import TodayWorked, ZoneToday

    guide = (Path(__file__).parents[2] / "docs" / "guide.md").read_text(encoding="utf-8")
    told = guide.partition("### For a controller")[2].partition("Every field stands")[0]
    rows = "".join(re.findall(r"^\| (`.*?) \|", told, re.MULTILINE))
    zones = set(re.findall(r"`zones\[\]\.(\w+)`", rows))
    assert zones == {field.name for field in fields(ZoneToday)}
    assert set(re.findall(r"`(\w+)`", rows)) <= {field.name for field in fields(TodayWorked)}


@pytest.mark.parametrize("on", ["tomorrow", "2026-02-30", "20260715", "2026-7-1", "9999-99-99"])
def test_a_day_that_is_none_is_refused_in_words(client: TestClient, on: str) -> None:
    """What is no day is told so."""
    answer = client.get(f"{HOME}today.json?on={on}")
    assert answer.status_code == 400
    assert "a day was expected" in answer.json()["words"]


def test_a_plan_without_weather_says_why_there_is_no_today(client: TestClient) -> None:
    """No today without weather: words, not a fault."""
    answer = client.get(f"{HOME}today.json")
    assert answer.status_code == 409
    assert answer.json()["words"]


def waited(client: TestClient, path: str, words: str) -> str:
    """A page, asked for until it holds words."""
    for _ in range(200):
        page = client.get(HOME + path).text
        if words in page:
            return page
        dated._crew.submit(lambda: None).result()
    raise AssertionError(f"{words} never came on {path}")


def test_the_row_says_today(growing: TestClient, plan: Path) -> None:
    """Once it is worked out the first page says what to run today, and which container to look at."""
    note(plan, NoteWish("rail 2", "problem leans", at="2026-07-14 7:00"))
    page = waited(growing, "", "Today, in zone 1")
    assert "Look at rail 2 first." in page


def test_what_is_believed_follows_what_is_noted(growing: TestClient, plan: Path) -> None:
    """The lens tells what a container holds and when it was last read; a note changes the mark that pages watch."""
    before = growing.get(f"{HOME}work").json()["day"]
    page = waited(growing, "notes?c=rail 1", "It holds about")
    assert "Nobody has read it yet." in page
    note(plan, NoteWish("rail 1", "dry", at="2026-07-15 7:00"))
    assert growing.get(f"{HOME}work").json()["day"] != before
    assert "Last read today." in waited(growing, "notes?c=rail 1", "Last read")
    assert "The season so far" in waited(growing, "notes", "Entries: 1 × finger.")


def test_many_notes_want_one_answer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Work that waits its turn on an older journal is called off, and whoever waits for it gets the newest."""
    worked: list[str] = []
    go, begun = threading.Event(), threading.Event()

    def slow(key: Any, sight: Any) -> dated.Dated:
        worked.append(key[3])
        begun.set()
        assert go.wait(30)
        return dated.Dated(trouble=key[3])

    marks = iter(["1", "2", "3", *["4"] * 9])
    monkeypatch.setattr(dated, "_worked", slow)
    monkeypatch.setattr(dated, "mark_of", lambda _: next(marks))
    sight = Sight("many", tmp_path / "many.toml", "digest", None, None, ())
    with ThreadPoolExecutor(4) as readers:
        first = readers.submit(dated.waited_for, sight, DAY)
        assert begun.wait(30)
        later = [readers.submit(dated.waited_for, sight, DAY) for _ in range(3)]
        while next(reversed(dated._made))[3] != "4":
            time.sleep(0.01)
        go.set()
        assert first.result(30).trouble == "1"
        assert {one.result(30).trouble for one in later} == {"4"}
    assert worked == ["1", "4"]


def test_what_is_due_leaves_when_it_is_noted(growing: TestClient) -> None:
    """Keep tells what is due today and what comes."""
    told = waited(growing, "keep", "<h2>Due</h2>")
    assert "What is noted as done is no longer due" in told
    due = told.partition('<ul class="due">')[2].partition("</ul>")[0]
    assert due.count("<li>") >= 1
    assert "Mind (" not in due
    assert due.count("<summary>Mind: ") == due.count("</details>") > 0
    assert "Decides: " in due
