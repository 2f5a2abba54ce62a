"""Others on the network let in by phrase or link, known again by a cookie; guesses wait ever longer."""

import hmac
import math
import secrets
import time
import unicodedata
from collections import OrderedDict
from hashlib import sha256
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from brimful.web.guard import KEY, cookie_name, form_of

LEAST_LETTERS = 12
FREE_TRIES = 4
LONGEST_WAIT_S = 900.0
MOST_ADDRESSES = 4096
STAY_S = 30 * 86400
CONSONANTS, VOWELS = "bdfghjklmnprstvz", "aeiou"


def made_phrase() -> str:
    """Four made-up words of two syllables: easy to read out, one of 1.7 × 10¹⁵."""
    syllables = [secrets.choice(CONSONANTS) + secrets.choice(VOWELS) for _ in range(8)]
    return "-".join(a + b for a, b in zip(syllables[::2], syllables[1::2], strict=True))


def link_token(phrase: str) -> str:
    """What the link carries in the phrase's stead; another at each start."""
    return _seal("link", phrase)[:32]


class Patience:
    """After a few wrong tries an address waits, twice as long after each."""

    def __init__(self) -> None:
        self._wrong: OrderedDict[str, tuple[int, float]] = OrderedDict()

    def wait_s(self, address: str, now: float) -> int:
        """How long the address has yet to wait [s]."""
        return max(0, math.ceil(self._wrong.get(address, (0, 0.0))[1] - now))

    def wrong(self, address: str, now: float) -> None:
        """Count a wrong try."""
        count = self._wrong.pop(address, (0, 0.0))[0] + 1
        pause = min(LONGEST_WAIT_S, 2.0 ** min(count - FREE_TRIES, 20)) if count >= FREE_TRIES else 0.0
        self._wrong[address] = (count, now + pause)
        while len(self._wrong) > MOST_ADDRESSES:
            self._wrong.popitem(last=False)

    def right(self, address: str) -> None:
        """Forget the wrong tries of one who has entered."""
        self._wrong.pop(address, None)


class Door:
    """Shows those who have not entered the way in, and nothing else."""

    def __init__(self, app: ASGIApp, phrase: str) -> None:
        self.app, self.phrase, self.token = app, phrase, link_token(phrase)
        self.patience = Patience()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let in those who carry the cookie, the phrase or the link."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope)
        path = scope["path"]
        if path == "/enter" or path.startswith("/enter/"):
            await (await run_in_threadpool(self._enter, request))(scope, receive, send)
        elif path.startswith("/static/") or _stays(request):
            await self.app(scope, receive, send)
        else:
            await (await run_in_threadpool(_asked, request, path, 401))(scope, receive, send)

    def _enter(self, request: Request) -> Response:
        address = request.client.host if request.client else ""
        given = request.url.path.removeprefix("/enter").removeprefix("/")
        to = _inside(form_of(request).get("to", "/"))
        if not given and request.method != "POST":
            return _asked(request, "/", 200)
        wait = self.patience.wait_s(address, time.monotonic())
        if wait:
            return _asked(request, to, 429, wait=wait)
        if not self._right(request, given):
            self.patience.wrong(address, time.monotonic())
            return _asked(request, to, 401, wrong=True)
        self.patience.right(address)
        return _entered(request, to)

    def _right(self, request: Request, token: str) -> bool:
        if token:
            return hmac.compare_digest(token.encode(), self.token.encode())
        said = form_of(request).get("phrase", "")
        return isinstance(said, str) and hmac.compare_digest(_plain(said), _plain(self.phrase))


def _asked(request: Request, to: str, status: int, *, wrong: bool = False, wait: int = 0) -> Response:
    from brimful.web.show import html

    answer = html(request, "enter.html", {"to": to, "wrong": wrong, "wait": wait}, status)
    if wait:
        answer.headers["Retry-After"] = str(wait)
    return answer


def _entered(request: Request, to: str) -> Response:
    """A page in between, so that the browser counts what follows as asked by this page."""
    from brimful.web.show import html

    if request.method == "POST":
        answer: Response = RedirectResponse(quote(to, safe="/?&=%"), 303)
    else:
        answer = html(request, "entered.html", {})
    until = str(int(time.time()) + STAY_S)
    value = f"{until}.{_seal('in', until)}"
    answer.set_cookie(_cookie(request), value, max_age=STAY_S, httponly=True, samesite="lax")
    return answer


def _stays(request: Request) -> bool:
    until, _, seal = request.cookies.get(_cookie(request), "").partition(".")
    if not hmac.compare_digest(seal.encode(), _seal("in", until).encode()):
        return False
    return int(until) > time.time()


def _cookie(request: Request) -> str:
    return cookie_name(request.scope) + "-in"


def _inside(to: object) -> str:
    """An address on this page; whatever would lead elsewhere leads to its beginning."""
    fine = isinstance(to, str) and to.startswith("/") and not to.startswith(("//", "/\\")) and to.isprintable()
    return str(to) if fine else "/"


def _plain(phrase: str) -> bytes:
    return unicodedata.normalize("NFC", phrase).strip().encode("utf-8", "replace")


def _seal(*parts: str) -> str:
    return hmac.new(KEY, "\0".join(("share", *parts)).encode(), sha256).hexdigest()
