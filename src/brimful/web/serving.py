"""The page served: a socket on this machine, a browser opened on it, one line for each request of others."""

import gc
import logging
import socket
import sys
import threading
import traceback
import webbrowser
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from brimful.errors import BrimfulError

if TYPE_CHECKING:
    from starlette.applications import Starlette

LOOPBACK = "127.0.0.1"
EVERYWHERE = "0.0.0.0"
PLAIN_HTTP = (
    "What goes over the network is not encrypted: others on the same network can read it, and whoever has the\n"
    "phrase or the link can enter. Share only on a network you trust, and stop with Ctrl-C when you are done."
)


def serve(plans: Sequence[Path], *, port: int, browser: bool, share: str = "", tell_phrase: bool = False) -> None:
    """Serve plans until interrupted; `share` is the pass phrase that lets others on the network in, "" for nobody.

    Raises:
        BrimfulError: the port is taken.
    """
    listener = _listen(EVERYWHERE if share else LOOPBACK, port)
    port = listener.getsockname()[1]
    names = _own_names() if share else []
    address = f"http://{LOOPBACK}:{port}/" + _entrance(share)
    _tell(address)
    if share:
        _tell_sharing(share, tell_phrase, [f"http://{name}:{port}/{_entrance(share)}" for name in names])
    if browser:
        threading.Timer(0.5, webbrowser.open, (address,)).start()
    logging.getLogger("uvicorn.error").addFilter(_one_line)
    with suppress(KeyboardInterrupt):
        _run(plans, listener, share, names)
    _tell("Stopped.")


def _run(plans: Sequence[Path], listener: socket.socket, share: str, names: Sequence[str]) -> None:
    gc.disable()  # nothing is thrown away while starting; looking for it costs a tenth of the time
    import uvicorn

    from brimful.web.app import create_app

    app = create_app(plans, share=share, names=names)
    threading.Thread(target=_get_ready, args=(app,), daemon=True).start()
    config = uvicorn.Config(
        Told(app) if share else app, loop="asyncio", http="h11", ws="none", log_level="warning", access_log=False,
        proxy_headers=False, server_header=False, timeout_graceful_shutdown=3,
    )  # fmt: skip
    uvicorn.Server(config).run(sockets=[listener])


def _get_ready(app: "Starlette") -> None:
    """Open the only plan, and read the templates, before the browser asks."""
    from brimful.web.show import environment

    try:
        names = list(app.state.benches)
        if len(names) == 1:
            app.state.benches[names[0]].sight()
        environment().get_template("row.html")
        environment().get_template("strip.html")
    except Exception:  # the page that is asked for will say it
        logging.getLogger(__name__).debug("not ready", exc_info=True)
    finally:
        gc.freeze()
        gc.enable()


class Told:
    """One line for each request: from where, how, which address, how it was answered. Never what was asked or sent."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on, and tell."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        async def answer(message: Message) -> None:
            if message["type"] == "http.response.start":
                _tell(access_line(scope, message["status"]))
            await send(message)

        await self.app(scope, receive, answer)


def access_line(scope: Scope, status: int) -> str:
    """What is told of a request; a token in the address is left out, and signs stay as they were sent, in ASCII."""
    path = scope.get("raw_path", b"").partition(b"?")[0].decode("ascii", "backslashreplace")
    if scope["path"].startswith("/enter/"):
        path = "/enter/…"
    whence = (scope.get("client") or ("?",))[0]
    return f"{whence} {scope['method']} {path} {status}"


def _listen(host: str, port: int) -> socket.socket:
    # with the protocol named, answers go out at once; else headers wait 40 ms for what follows (Nagle and delayed ACK)
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((host, port))
        listener.listen(128)
    except OSError as error:
        listener.close()
        raise BrimfulError(f"port {port} cannot be used: {error.strerror}. Choose another with --port.") from error
    return listener


def _own_names() -> list[str]:
    """This machine in the network: its numbers, then its name. Nothing is sent to find them out."""
    numbers = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # an address of nobody, RFC 5737: asks only which way out there is
            numbers.append(probe.getsockname()[0])
        except OSError:
            pass
    name = socket.gethostname().lower()
    return [*numbers, name, *([] if "." in name else [f"{name}.local"])]


def _entrance(share: str) -> str:
    from brimful.web.share import link_token

    return f"enter/{link_token(share)}" if share else ""


def _tell_sharing(phrase: str, tell_phrase: bool, addresses: Sequence[str]) -> None:
    _tell("For others on this network:", *(f"  {address}" for address in addresses))
    _tell(f"Pass phrase: {phrase}" if tell_phrase else "Or the address without what follows /, and your pass phrase.")
    _tell(PLAIN_HTTP)


def _tell(*lines: str) -> None:
    print(*lines, sep="\n", file=sys.stderr, flush=True)


def _one_line(record: logging.LogRecord) -> bool:
    """A fault of ours is told in a line: which, and where."""
    if record.exc_info and record.exc_info[1] is not None:
        error = record.exc_info[1]
        last = traceback.extract_tb(error.__traceback__)[-1]
        where = f"{Path(last.filename).name}, line {last.lineno}"
        record.msg, record.args = f"A fault of ours: {type(error).__name__} in {where}: {error}", ()
        record.exc_info = record.exc_text = None
    return True
