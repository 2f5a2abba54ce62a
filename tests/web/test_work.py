"""The longer work beside a plan: several readers at once, called off when the plan changes, said when it breaks off."""

import re
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from tests.cli.bad_plans import GOOD
from tests.web.visitor import plan_in, token_on, until_done, visiting

from brimful import services
from brimful.errors import BrimfulError
from brimful.web import bench as benches
from brimful.web.bench import Bench, Sight, digest_of

OTHER = GOOD.replace("count = 3", "count = 4")


@pytest.fixture
def crew() -> Iterator[ThreadPoolExecutor]:
    """One who works beside."""
    with ThreadPoolExecutor(1) as one:
        yield one


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """Every time a plan is opened."""
    asked: list[Path] = []
    really = services.open_plan

    def counted(path: Path, *rest: Any) -> Any:
        asked.append(path)
        return really(path, *rest)

    monkeypatch.setattr(services, "open_plan", counted)
    return asked


class Held:
    """Longer work that waits at its first step until it is let go."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.begun, self.go, self.ended = threading.Semaphore(0), threading.Event(), []  # type: tuple[Any, Any, list[str]]
        really = services.work_beside

        def held(opened: Any, today: Any = None, tell: Callable[[str], None] = lambda _: None) -> Any:
            self.begun.release()
            assert self.go.wait(30)
            try:
                answer = really(opened, today, tell)
            except benches.Stopped:
                self.ended.append("stopped")
                raise
            self.ended.append("done")
            return answer

        monkeypatch.setattr(services, "work_beside", held)


def wait_for(bench: Bench, fit: Callable[[Sight], bool], seconds: float = 60.0) -> Sight:
    """The first sight of a plan that fits."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        sight = bench.sight()
        if fit(sight):
            return sight
        time.sleep(0.02)
    raise AssertionError(f"never so within {seconds} s; last: doing {bench.sight().doing!r}")


def test_the_design_comes_first_and_the_rest_after(tmp_path: Path, crew: ThreadPoolExecutor) -> None:
    """What the design gives is there at once; season, care and planting come without being asked for again."""
    bench = Bench(plan_in(tmp_path), crew)
    first = bench.sight()
    assert first.scene is not None
    assert first.doing
    last = wait_for(bench, lambda sight: sight.whole)
    assert last.scene is not None
    assert last.scene.design.zones == first.scene.design.zones
    assert set(first.workings) <= set(last.workings)


def test_many_readers_share_one_opening(tmp_path: Path, crew: ThreadPoolExecutor, opened: list[Path]) -> None:
    """Twenty who ask at once get the same sight of a plan that was opened once."""
    bench = Bench(plan_in(tmp_path), crew)
    with ThreadPoolExecutor(20) as readers:
        seen = list(readers.map(lambda _: bench.sight().digest, range(60)))
    assert len(set(seen)) == 1
    assert len(opened) == 1


def test_a_changed_plan_calls_off_the_work_on_the_old_one(
    tmp_path: Path, crew: ThreadPoolExecutor, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Work on a text that is no longer there ends at its next step, and the new text is worked out whole."""
    held = Held(monkeypatch)
    path = plan_in(tmp_path)
    bench = Bench(path, crew)
    old = bench.sight()
    assert held.begun.acquire(timeout=30)
    path.write_text(OTHER)
    new = bench.sight()
    assert new.digest != old.digest
    held.go.set()
    last = wait_for(bench, lambda sight: sight.whole)
    assert last.digest == new.digest
    assert held.ended == ["stopped", "done"]


def test_work_called_off_stays_off_until_taken_up_again(
    tmp_path: Path, crew: ThreadPoolExecutor, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Called off, the sight says so and does not change; taken up, it becomes whole, and only one of the two works."""
    held = Held(monkeypatch)
    bench = Bench(plan_in(tmp_path), crew)
    bench.sight()
    assert held.begun.acquire(timeout=30)
    bench.call_off()
    assert (bench.sight().stopped, bench.sight().doing) == (True, "")
    bench.go_on()
    held.go.set()
    assert wait_for(bench, lambda sight: sight.whole).scene is not None
    assert held.ended == ["stopped", "done"]


def test_going_back_to_an_earlier_text_is_at_once(tmp_path: Path, crew: ThreadPoolExecutor, opened: list[Path]) -> None:
    """An undone change shows what was worked out before, whole, without the plan being opened again."""
    path = plan_in(tmp_path)
    bench = Bench(path, crew)
    first = wait_for(bench, lambda sight: sight.whole)
    path.write_text(OTHER)
    wait_for(bench, lambda sight: sight.whole)
    path.write_text(GOOD)
    assert bench.sight() is first
    assert len(opened) == 2


def test_going_back_takes_up_what_was_not_finished(tmp_path: Path, crew: ThreadPoolExecutor) -> None:
    """A text left before it was worked out is worked out when it comes back."""
    path = plan_in(tmp_path)
    bench = Bench(path, crew)
    bench.sight()
    path.write_text(OTHER)
    bench.sight()
    path.write_text(GOOD)
    assert bench.sight().doing
    assert wait_for(bench, lambda sight: sight.whole).digest == digest_of(path)


def test_only_so_many_texts_are_kept(tmp_path: Path, crew: ThreadPoolExecutor, opened: list[Path]) -> None:
    """The text seen longest ago is forgotten, so that memory stays bounded."""
    path = plan_in(tmp_path)
    bench = Bench(path, crew)
    bench.sight()
    for n in range(benches.KEPT + 1):
        path.write_text(GOOD + f"\n# {n}\n")
        bench.sight()
    path.write_text(GOOD)
    bench.sight()
    assert len(opened) == benches.KEPT + 3
    assert len(bench._kept) <= benches.KEPT


def test_what_breaks_off_is_said_and_can_be_tried_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A step that fails is named on the page with a button; nothing is "being worked out" for ever."""
    really = services.work_beside

    def broken(opened: Any, today: Any = None, tell: Callable[[str], None] = lambda _: None) -> Any:
        tell("build and care")
        raise ZeroDivisionError("inner")

    monkeypatch.setattr(services, "work_beside", broken)
    with visiting(plan_in(tmp_path)) as one:
        one.get("/p/rail/")
        said = until_done(one, "/p/rail/")
        assert said["broken"] == "build and care"
        page = one.get("/p/rail/").text
        assert "Build and care could not be worked out" in page
        assert "inner" not in page
        monkeypatch.setattr(services, "work_beside", really)
        one.post("/p/rail/work/go-on", data={"token": token_on(page)})
        said = until_done(one, "/p/rail/")
        assert not said["broken"]
        assert "could not be worked out" not in one.get("/p/rail/").text


def test_the_page_calls_off_and_takes_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The buttons on the page do what they say, and lead back to it."""
    held = Held(monkeypatch)
    with visiting(plan_in(tmp_path)) as one:
        page = one.get("/p/rail/").text
        assert "Working out" in page
        back = one.post("/p/rail/work/stop", data={"token": token_on(page)})
        assert back.url.path == "/p/rail/"
        assert re.search(r"not worked out to the end.*Go on", back.text, re.DOTALL)
        one.post("/p/rail/work/go-on", data={"token": token_on(back.text)})
        held.go.set()
        said = until_done(one, "/p/rail/")
        assert (said["doing"], said["stopped"], said["broken"]) == ("", False, "")


def test_fifty_readers_while_the_plan_changes(tmp_path: Path) -> None:
    """Readers of all pages, while the file is written over and over, never get an error."""
    path = plan_in(tmp_path)
    with visiting(path) as one:
        one.get("/p/rail/")

        def read(n: int) -> int:
            if n % 10 == 0:
                path.write_text(GOOD + f"# {n}\n")
            return one.get(f"/p/rail/{('', 'water', 'doubts', 'work')[n % 4]}").status_code

        with ThreadPoolExecutor(50) as readers:
            assert set(readers.map(read, range(100))) == {200}


def test_the_mark_of_a_plan_follows_what_it_rests_on(tmp_path: Path) -> None:
    """Another text, another table beside, a changed weather file in a folder below: each gives another mark."""
    below = tmp_path / "weather"
    below.mkdir()
    weather = below / "station.csv"
    path = plan_in(tmp_path, text=GOOD + '\n[site]\nweather = "weather/station.csv"\n')
    marks = [digest_of(path)]
    weather.write_text("date\n")
    marks.append(digest_of(path))
    weather.write_text("date,tmax °C\n")
    marks.append(digest_of(path))
    (tmp_path / "brimful-materials.csv").write_text("key\n")
    marks.append(digest_of(path))
    (tmp_path / "notes.txt").write_text("nothing of the plan's")
    assert digest_of(path) == marks[-1]
    path.write_text(GOOD)
    marks.append(digest_of(path))
    assert len(set(marks)) == len(marks)


def test_a_plan_that_is_not_there_is_told(tmp_path: Path, crew: ThreadPoolExecutor) -> None:
    """A missing file, or a folder in its place, is said in words."""
    with pytest.raises(BrimfulError, match="Is it still there"):
        Bench(tmp_path / "none.toml", crew).sight()
    with pytest.raises(BrimfulError, match="cannot be read"):
        Bench(tmp_path, crew).sight()
