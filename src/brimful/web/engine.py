"""What draws a live chart in the browser: made once a machine from what is installed, kept, sent packed."""

import gzip
import os
import subprocess
import sys
import threading
import zlib
from functools import lru_cache
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path
from tempfile import NamedTemporaryFile

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from brimful.web.files import FOR_GOOD

MAKING = "import sys, vl_convert as v; sys.stdout.buffer.write(v.javascript_bundle(vl_version=sys.argv[1]).encode())"
GRAMMAR = "6.4"
"""The Vega-Lite that goes with the Vega of the bundle; charts use nothing in which it differs from that of print."""
MOST_SECONDS = 120.0
HEADERS = {"Cache-Control": FOR_GOOD, "Vary": "Accept-Encoding"}
_making = threading.Lock()


def engine_address() -> str:
    """Where the browser finds it, and may keep it for good."""
    return f"/engine/{mark()}.js"


@lru_cache(maxsize=1)
def mark() -> str:
    """A mark that changes with what it is made from."""
    return sha256(f"{version('vl-convert-python')} {GRAMMAR}".encode()).hexdigest()[:16]


def engine(request: Request) -> Response:
    """The script; an address of an older one leads to this one."""
    if request.path_params["mark"] != mark():
        return RedirectResponse(engine_address())
    made = packed()
    if "gzip" in request.headers.get("accept-encoding", ""):
        return Response(made, media_type="text/javascript", headers={**HEADERS, "Content-Encoding": "gzip"})
    return Response(gzip.decompress(made), media_type="text/javascript", headers=HEADERS)


def packed() -> bytes:
    """The script, gzipped; whoever asks while it is being made waits for the one that is."""
    with _making:
        return _packed()


@lru_cache(maxsize=1)
def _packed() -> bytes:
    place = cache_folder() / f"engine-{mark()}.js.gz"
    found = _kept(place)
    if found is None:
        found = _made()
        _keep(place, found)
    return found


def _made() -> bytes:
    """In a process of its own: the making takes seconds and would let nobody else be answered meanwhile."""
    command = [sys.executable, "-c", MAKING, GRAMMAR]
    done = subprocess.run(command, capture_output=True, check=True, timeout=MOST_SECONDS, stdin=subprocess.DEVNULL)
    return gzip.compress(done.stdout, 9, mtime=0)


def cache_folder() -> Path:
    """The reader's own cache, never one that others may write to: what lies there is run."""
    named = os.environ.get("XDG_CACHE_HOME", "")
    return (Path(named) if Path(named).is_absolute() else Path.home() / ".cache") / "brimful"


def _kept(place: Path) -> bytes | None:
    """What was kept; None where there is none or it is damaged."""
    try:
        found = place.read_bytes()
        return found if gzip.decompress(found) else None
    except (OSError, EOFError, ValueError, zlib.error):
        return None


def _keep(place: Path, made: bytes) -> None:
    """Keep it for the next start; where nothing can be written it stays in memory alone."""
    try:
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        with NamedTemporaryFile(dir=place.parent, delete=False) as part:
            part.write(made)
        Path(part.name).replace(place)
    except OSError:
        return


ROUTES = (Route("/engine/{mark}.js", engine),)
