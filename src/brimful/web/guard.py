"""What keeps the page safe: who may ask, what a browser may load, what may be sent."""

import asyncio
import hmac
import re
import secrets
from collections.abc import Iterable
from hashlib import sha256
from typing import Any

from markupsafe import Markup
from starlette.datastructures import FormData, Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.middleware.gzip import DEFAULT_EXCLUDED_CONTENT_TYPES, GZipMiddleware
from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

MOST_BYTES = 1 << 20
MOST_SECONDS = 30.0
"""A request larger, or longer on its way, is refused."""
METHODS = ("GET", "HEAD", "POST")
LOOPBACK = ("localhost", "127.0.0.1", "[::1]")
FORMS = ("application/x-www-form-urlencoded", "multipart/form-data")
COOKIE = re.compile(r"[\w-]{43}", re.ASCII)
TOKEN = re.compile(r"([\w-]{11})([0-9a-f]{64})", re.ASCII)
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
PICTURE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; sandbox"
"""A drawing opened by itself carries its own styles, and runs nothing."""
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-cache",
}
SHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
PACKED = (*DEFAULT_EXCLUDED_CONTENT_TYPES, "application/pdf", SHEET)
KEY = secrets.token_bytes(32)
"""Made at each start, never kept: tokens end with the server that gave them."""


def hidden_field(request: Request) -> Markup:
    """The field that a form must carry to be believed to come from this page."""
    return Markup('<input type="hidden" name="token" value="{}">').format(token_of(request))


def token_of(request: Request) -> str:
    """The same for a script, to send as `X-Brimful-Token`; another at each asking, so that it cannot be guessed from
    the size of packed pages."""
    salt = secrets.token_urlsafe(8)
    return salt + _seal(salt, _seat(request.scope))


def form_of(request: Request) -> FormData:
    """The form that was sent with a request, read already; empty where none was."""
    form: FormData = request.scope.get("brimful.form", FormData())
    return form


def headed(response: Response) -> Response:
    """An answer with the headers that keep it safe."""
    _head(response.headers)
    return response


class Guard:
    """Refuses what does not come from this page, and tells the browser to load nothing from elsewhere."""

    def __init__(self, app: ASGIApp, names: Iterable[str] = (), *, shared: bool = False) -> None:
        self.app, self.names, self.shared = app, frozenset([*LOOPBACK, *names]), shared

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a sound request through, with its body read."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        answer = _headers_on(scope, send)
        try:
            body = await self._checked(Request(scope, receive))
            await self.app(scope, _again(body, receive), answer)
        except ClientDisconnect:
            return
        except HTTPException as error:
            from brimful.web.refusals import refused

            await refused(Request(scope), error)(scope, receive, answer)
        finally:
            await form_of(Request(scope)).close()

    async def _checked(self, request: Request) -> bytes:
        """What was sent, if it may be."""
        self._check_name(request.scope)
        _check_where_from(request)
        body = await _body(request)
        if request.method == "POST":
            await _check_token(request.scope, body)
        return body

    def _check_name(self, scope: Scope) -> None:
        """A page elsewhere whose name is made to lead to this machine must not be answered."""
        name = host_name(Headers(scope=scope).get("host", ""))
        reached = (scope.get("server") or ("",))[0] if self.shared else ""
        if not name or name not in self.names | {reached, f"[{reached}]"}:
            raise HTTPException(421)


def host_name(host: str) -> str:
    """The name or number in a Host header, without its port; "" where it is neither."""
    found = re.fullmatch(r"(\[[0-9a-f:.]+\]|[a-z0-9_.-]+)(:\d{1,5})?", host.lower())
    return found[1] if found else ""


def guards(share: str, names: Iterable[str] = ()) -> list[Middleware]:
    """The guards in order, outermost first; `share` is the pass phrase, `names` this machine's in the network."""
    from brimful.web.share import Door

    door = [Middleware(Door, share)] if share else []
    return [
        Middleware(GZipMiddleware, minimum_size=1000, compresslevel=5, exclude_content_types=PACKED),
        Middleware(Guard, names, shared=bool(share)),
        *door,
    ]


def _check_where_from(request: Request) -> None:
    """Only pages of this origin may send, and only they may load; a link from elsewhere may be followed."""
    if request.method not in METHODS:
        raise HTTPException(405, headers={"Allow": ", ".join(METHODS)})
    heads = request.headers
    site = heads.get("sec-fetch-site", "none")
    if request.method == "POST":
        origin = heads.get("origin")
        here = f"{request.scope['scheme']}://{heads['host']}".lower()
        if site not in ("none", "same-origin") or (origin is not None and origin.lower() != here):
            raise HTTPException(403)
    elif site in ("cross-site", "same-site") and heads.get("sec-fetch-mode") != "navigate":
        raise HTTPException(403)


async def _body(request: Request) -> bytes:
    """The whole of what is sent, however it comes in pieces."""
    told = request.headers.get("content-length", "0")
    if not told.isdigit() or len(told) > 7 or int(told) > MOST_BYTES:
        raise HTTPException(413)
    body = bytearray()
    try:
        async with asyncio.timeout(MOST_SECONDS):
            async for part in request.stream():
                body += part
                if len(body) > MOST_BYTES:
                    raise HTTPException(413)
    except TimeoutError:
        raise HTTPException(408) from None
    return bytes(body)


async def _check_token(scope: Scope, body: bytes) -> None:
    request = Request(scope, _again(body))
    if request.headers.get("content-type", "").partition(";")[0].strip().lower() in FORMS:
        scope["brimful.form"] = await request.form(max_files=20, max_fields=1000)
    given = request.headers.get("x-brimful-token") or form_of(Request(scope)).get("token", "")
    found = TOKEN.fullmatch(given) if isinstance(given, str) else None
    seat = request.cookies.get(cookie_name(scope), "")
    if found is None or not hmac.compare_digest(found[2], _seal(found[1], seat)):
        raise HTTPException(403, "token")


def _again(body: bytes, receive: Receive | None = None) -> Receive:
    """A body given once more, then whatever else comes."""
    rest: list[Message] = [{"type": "http.request", "body": body, "more_body": False}]

    async def give() -> Message:
        if rest or receive is None:
            return rest.pop() if rest else {"type": "http.disconnect"}
        return await receive()

    return give


def _headers_on(scope: Scope, send: Send) -> Send:
    async def answer(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            _head(headers)
            if "brimful.seat" in scope:
                words = f"{cookie_name(scope)}={scope['brimful.seat']}; Path=/; HttpOnly; SameSite=Strict"
                headers.append("Set-Cookie", words)
        await send(message)

    return answer


def _head(headers: Any) -> None:
    if headers.get("content-type", "").startswith("image/svg"):
        headers.setdefault("Content-Security-Policy", PICTURE_POLICY)
    for name, value in HEADERS.items():
        headers.setdefault(name, value)


def _seat(scope: Scope) -> str:
    """What the browser's cookie holds; made where it has none, and then set with the answer."""
    held = Request(scope).cookies.get(cookie_name(scope), "")
    if COOKIE.fullmatch(held):
        return held
    seat: str = scope.setdefault("brimful.seat", secrets.token_urlsafe(32))
    return seat


def cookie_name(scope: Scope) -> str:
    """Cookies are shared by all ports of a machine: the port keeps two servers apart."""
    return f"brimful-{(scope.get('server') or ('', 0))[1]}"


def _seal(*parts: str) -> str:
    return hmac.new(KEY, "\0".join(parts).encode(), sha256).hexdigest()
