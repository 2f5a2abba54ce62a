"""The page as a Starlette application: routes read off the pages, one bench a plan."""

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any
from urllib.parse import quote

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Mount, Route

from brimful.errors import BrimfulError
from brimful.web import compare, engine, start
from brimful.web.editing import Drawers
from brimful.web.files import Files
from brimful.web.guard import guards
from brimful.web.leaf import Page
from brimful.web.pages import PAGES
from brimful.web.parts import PARTS
from brimful.web.rack import Rack
from brimful.web.refusals import refused, unreadable
from brimful.web.show import not_found, show_index, show_page, trouble


def create_app(plans: Sequence[Path], *, share: str = "", names: Sequence[str] = ()) -> Starlette:
    """The application for plans, which may be files or folders.

    `share` is the pass phrase that lets others on the network in, "" for nobody; `names` are this machine's there.
    """
    crew = ThreadPoolExecutor(max_workers=1, thread_name_prefix="beside")

    @asynccontextmanager
    async def lifespan(app: Starlette) -> Any:
        yield
        app.state.benches.call_off()
        crew.shutdown(wait=False, cancel_futures=True)

    app = Starlette(
        routes=routes(),
        middleware=guards(share, names),
        lifespan=lifespan,
        exception_handlers={404: not_found, HTTPException: refused, BrimfulError: unreadable, 500: trouble},
    )
    app.state.benches = Rack(plans, crew)
    app.state.drawers = Drawers()
    return app


def routes() -> list[BaseRoute]:
    """Every address: the list of plans, the lenses of a plan, and the parts below them."""
    lenses = [Route(f"/p/{{plan}}/{page.key}", _door(page), name=page.key or "row") for page in PAGES]
    parts = [Route(f"/p/{{plan}}/{part.path}", part.answer, methods=part.methods) for part in PARTS]
    return [
        Route("/", show_index, name="index"),
        *start.ROUTES,
        *compare.ROUTES,
        *engine.ROUTES,
        Route("/container/{name:path}", to_only_plan),
        *lenses,
        *parts,
        Mount("/static", Files(), name="static"),
    ]


def _door(page: Page) -> Any:
    def answer(request: Request) -> Response:
        return show_page(request, page)

    return answer


def to_only_plan(request: Request) -> Response:
    """A label's address leads to the only plan there is, or to the list of plans."""
    names = list(request.app.state.benches)
    if len(names) != 1:
        return RedirectResponse("/")
    return RedirectResponse(f"/p/{quote(names[0])}{quote(request.scope['path'])}")
