"""A real server on a free port, and a real browser before it."""

import os
import shutil
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from brimful.services import example

QUIET = ("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync")  # fmt: skip
SIZES = {"desk": {"width": 1280, "height": 900}, "phone": {"width": 390, "height": 844}}
DEMO = "alder_point_landing"


@dataclass
class Served:
    """A server that runs: its address, its process, and the file that holds what it tells."""

    address: str
    process: subprocess.Popen[bytes]
    told: Path

    def done(self, plan: str, seconds: float = 120.0) -> None:
        """Wait until a plan is worked out."""
        end = time.monotonic() + seconds
        while b'"doing":""' not in fetched(f"{self.address}p/{plan}/work"):
            assert time.monotonic() < end, f"{plan} is still being worked out"
            time.sleep(0.1)

    def stop(self) -> int:
        """End it as Ctrl-C does; its exit code."""
        if self.process.poll() is None:
            self.process.send_signal(2)
        return self.process.wait(20)


def fetched(address: str) -> bytes:
    """What stands at an address."""
    with urllib.request.urlopen(address, timeout=60) as answer:
        return bytes(answer.read())


def serving(plans: Path, folder: Path, *options: str, **environment: str) -> Served:
    """Start a server, and wait until it tells its address."""
    told = folder / "told.txt"
    command = [sys.executable, "-m", "brimful", "serve", str(plans), "--port", "0", "--no-browser", *options]
    with told.open("wb") as out:
        process = subprocess.Popen(
            command, stdout=out, stderr=out, stdin=subprocess.DEVNULL, env={**os.environ, **environment}
        )
    end = time.monotonic() + 60
    while not told.read_text().startswith("http") or "\n" not in told.read_text():
        assert process.poll() is None, told.read_text()
        assert time.monotonic() < end
        time.sleep(0.02)
    return Served(told.read_text().split()[0], process, told)


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Callable[..., Served]]:
    """Servers of a test's own, ended with it."""
    running: list[Served] = []

    def one(plans: Path, *options: str, **environment: str) -> Served:
        running.append(serving(plans, tmp_path, *options, **environment))
        return running[-1]

    yield one
    for served in running:
        served.process.kill()
        served.process.wait()


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """The examples, a plan that cannot be worked out, and one with signs in its name; all worked out."""
    folder = tmp_path_factory.mktemp("plans")
    for path in example(DEMO).parent.iterdir():
        if path.is_file():
            shutil.copy(path, folder / path.name)
    (folder / "broken.toml").write_text('title = "Broken"\n[supply]\npressure = "3 in"\n')
    (folder / "a%20b & 'c'.toml").write_text(example("balcony").read_text())
    served = serving(folder, tmp_path_factory.mktemp("told"))
    fetched(f"{served.address}p/{DEMO}/")
    served.done(DEMO)
    yield served
    served.process.kill()
    served.process.wait()


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Debian's chromium; a machine without it cannot tell whether the page works, so it fails."""
    place = shutil.which("chromium")
    if place is None:
        pytest.fail("no chromium on the path: apt-get install chromium")
    with sync_playwright() as playwright:
        one = playwright.chromium.launch(executable_path=place, args=list(QUIET))
        yield one
        one.close()


@pytest.fixture
def visit(browser: Browser) -> Iterator[Callable[..., Page]]:
    """Pages, each in a context of its own, with whatever went wrong on them in `page.wrong`."""
    contexts: list[BrowserContext] = []

    def one(size: str = "desk", **wish: Any) -> Page:
        context = browser.new_context(viewport=SIZES[size], **wish)  # type: ignore[arg-type]
        contexts.append(context)
        page = context.new_page()
        wrong: list[str] = []
        page.wrong = wrong  # type: ignore[attr-defined]
        page.on("console", lambda said: wrong.append(said.text) if said.type in ("error", "warning") else None)
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("response", lambda answer: wrong.append(answer.url) if answer.status >= 400 else None)
        return page

    yield one
    for context in contexts:
        context.close()
