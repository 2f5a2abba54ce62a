"""The page served: a socket on this machine, a browser opened on it."""

import socket
import sys
import threading
import webbrowser
from collections.abc import Sequence
from pathlib import Path

import uvicorn

from brimful.errors import BrimfulError
from brimful.web.app import create_app

LOOPBACK = "127.0.0.1"


def plans_at(path: Path) -> list[Path]:
    """The plan at a path, or the plans in a folder."""
    if path.is_dir():
        return sorted(p for p in path.glob("*.toml") if p.is_file() and not p.name.startswith("."))
    return [path] if path.exists() else []


def serve(plans: Sequence[Path], *, port: int, browser: bool) -> None:
    """Serve plans until interrupted.

    Raises:
        BrimfulError: the port is taken.
    """
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((LOOPBACK, port))
    except OSError as error:
        raise BrimfulError(f"port {port} cannot be used: {error.strerror}. Choose another with --port.") from error
    address = f"http://{LOOPBACK}:{listener.getsockname()[1]}/"
    print(f"{address}  (stop with Ctrl-C)", file=sys.stderr, flush=True)
    if browser:
        threading.Timer(0.5, webbrowser.open, (address,)).start()
    uvicorn.Server(uvicorn.Config(create_app(plans), log_level="warning")).run(sockets=[listener])
