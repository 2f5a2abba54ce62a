"""Style, script and letters of the page: kept by the browser for good, at an address that changes with them."""

import os
import re
from functools import lru_cache
from hashlib import sha256
from pathlib import Path

from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

PLACE = Path(__file__).parent / "static"
MARK = re.compile(r"[0-9a-f]{16}")
FOR_GOOD = "public, max-age=31536000, immutable"


def mark() -> str:
    """A mark of all static files together, so that what one asks of another has it too."""
    return _mark(tuple((p.name, p.stat().st_mtime_ns, p.stat().st_size) for p in _files()))


def address(name: str) -> str:
    """Where the browser finds a static file, and may keep it."""
    return f"/static/{mark()}/{name}"


class Files(StaticFiles):
    """Static files, with or without the mark in their address; without it, or with an old one, to be asked for anew."""

    def __init__(self) -> None:
        super().__init__(directory=PLACE)

    async def get_response(self, path: str, scope: Scope) -> Response:
        """A file, and how long it may be kept."""
        first, _, rest = path.partition(os.sep)
        marked = MARK.fullmatch(first) is not None
        response = await super().get_response(rest if marked else path, scope)
        response.headers["Cache-Control"] = FOR_GOOD if marked and first == mark() else "no-cache"
        return response


def _files() -> list[Path]:
    return sorted(p for p in PLACE.rglob("*") if p.is_file())


@lru_cache(maxsize=8)
def _mark(stood: tuple[tuple[str, int, int], ...]) -> str:
    whole = sha256()
    for path in _files():
        whole.update(f"{path.relative_to(PLACE)}\0".encode() + path.read_bytes())
    return whole.hexdigest()[:16]
