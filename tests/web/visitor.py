"""A visitor of the page in tests: a small plan that is quickly worked out, and a client that speaks like a browser."""

import re
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from starlette.testclient import TestClient
from tests.cli.bad_plans import GOOD

from brimful.web.app import create_app

PLACE = "http://127.0.0.1:8477"


def plan_in(folder: Path, name: str = "rail.toml", text: str = GOOD) -> Path:
    """A plan in a folder."""
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


@contextmanager
def visiting(*plans: Path, share: str = "", place: str = PLACE, **more: Any) -> Iterator[TestClient]:
    """A client on plans, which has not asked for anything yet."""
    with TestClient(create_app(list(plans), share=share), base_url=place, **more) as client:
        yield client


def token_on(page: str) -> str:
    """The token that the first form on a page carries."""
    found = re.search(r'name="token" value="([^"]+)"', page)
    assert found is not None
    return found[1]


def until_done(client: TestClient, home: str, seconds: float = 60.0) -> dict[str, Any]:
    """Wait for the longer work, as the page does; what it said last."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        said: dict[str, Any] = client.get(f"{home}work").json()
        if not said["doing"]:
            return said
        time.sleep(0.05)
    raise AssertionError(f"still working out {said['doing']} after {seconds} s")
