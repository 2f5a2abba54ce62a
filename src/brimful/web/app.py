"""The page as a Starlette application: routes read off the pages, one bench a plan."""

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Mount, Route
from starlette.staticfiles import StaticFiles

from brimful.web.bench import Bench
from brimful.web.guard import guards
from brimful.web.leaf import Page
from brimful.web.pages import PAGES
from brimful.web.parts import PARTS
from brimful.web.show import not_found, show_index, show_page, trouble

HERE = Path(__file__).parent


def create_app(plans: Sequence[Path], *, share: str = "") -> Starlette:
    """The application for plans; `share` is the pass phrase that lets others on the network in, "" for nobody."""
    crew = ThreadPoolExecutor(max_workers=1, thread_name_prefix="beside")

    @asynccontextmanager
    async def lifespan(app: Starlette) -> Any:
        yield
        for bench in app.state.benches.values():
            bench.call_off()
        crew.shutdown(wait=False, cancel_futures=True)

    app = Starlette(
        routes=routes(),
        middleware=guards(share),
        lifespan=lifespan,
        exception_handlers={404: not_found, 500: trouble},
    )
    app.state.benches = {path.stem: Bench(path, crew) for path in plans}
    return app


def routes() -> list[BaseRoute]:
    """Every address: the list of plans, the lenses of a plan, and the parts below them."""
    lenses = [Route(f"/p/{{plan}}/{page.key}", _door(page), name=page.key or "row") for page in PAGES]
    parts = [Route(f"/p/{{plan}}/{part.path}", part.answer, methods=part.methods) for part in PARTS]
    return [
        Route("/", show_index, name="index"),
        Route("/container/{name:path}", to_only_plan),
        *lenses,
        *parts,
        Mount("/static", StaticFiles(directory=HERE / "static"), name="static"),
    ]


def _door(page: Page) -> Any:
    def answer(request: Request) -> Response:
        return show_page(request, page)

    return answer


def to_only_plan(request: Request) -> Response:
    """A label's address leads to the only plan there is, or to the list of plans."""
    benches = request.app.state.benches
    if len(benches) != 1:
        return RedirectResponse("/")
    return RedirectResponse(f"/p/{next(iter(benches))}{request.url.path}")
