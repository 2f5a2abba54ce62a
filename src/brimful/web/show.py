"""From a page and a plan in sight to HTML."""

import re
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import quote

from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from brimful.web.amounts import add_amounts
from brimful.web.bench import Bench, Sight
from brimful.web.chosen import is_container
from brimful.web.figures import behind, figure
from brimful.web.files import address
from brimful.web.guard import headed, hidden_field
from brimful.web.leaf import Asked, Leaf, Page
from brimful.web.shown import picture
from brimful.web.strip import strip_of
from brimful.web.titles import field_words

MOST_WEEKS = 60
USUAL = Asked()


def show_index(request: Request) -> Response:
    """The plans to choose from; the only one at once."""
    names = sorted(request.app.state.benches)
    if len(names) == 1 and "all" not in request.query_params:
        return RedirectResponse(f"/p/{quote(names[0])}/")
    return html(request, "index.html", {"plans": names, "folder": request.app.state.benches.folder is not None})


def show_page(request: Request, page: Page) -> Response:
    """A lens on a plan: sentences, the row, and what stands below; a plan that cannot be worked out says why."""
    sight = bench_of(request).sight()
    asked = asked_of(request, sight)
    leaf = page.look(sight, asked) if sight.scene is not None else Leaf()
    template = page.template if sight.scene is not None else "unsound.html"
    return html(request, template, frame(page, sight, asked, leaf))


def frame(page: Page, sight: Sight, asked: Asked, leaf: Leaf) -> dict[str, Any]:
    """What every page of a plan has."""
    title = sight.scene.design.title if sight.scene is not None else sight.name
    return {
        "page": page, "sight": sight, "scene": sight.scene, "asked": asked, "leaf": leaf, "title": title,
        "strip": strip_of(sight, asked, leaf.marks), "home": f"/p/{quote(sight.name)}/", **leaf.inside,
    }  # fmt: skip


def bench_of(request: Request) -> Bench:
    """The bench of the plan an address names.

    Raises:
        HTTPException: 404 where there is none.
    """
    bench: Bench | None = request.app.state.benches.get(request.path_params["plan"])
    if bench is None:
        raise HTTPException(404)
    return bench


def asked_of(request: Request, sight: Sight) -> Asked:
    """What the address asks for; what makes no sense counts as not asked."""
    week, one = request.query_params.get("week", ""), request.query_params.get("c", "")
    weeks = int(week) if re.fullmatch(r"[0-9]{1,2}", week) and int(week) <= MOST_WEEKS else USUAL.week
    known = sight.scene is not None and is_container(sight.scene, one)
    return Asked(one if known else "", weeks, dict(request.query_params))


def html(request: Request, template: str, context: dict[str, Any], status: int = 200) -> Response:
    """A template as a page."""
    from brimful.web.pages import PAGES

    text = environment().get_template(template).render(request=request, pages=PAGES, **context)
    return HTMLResponse(text, status)


@cache
def environment() -> Environment:
    """Where templates come from; everything put into them is escaped, and a name they misspell is an error."""
    place = Path(__file__).parent / "templates"
    made = Environment(
        loader=FileSystemLoader(place),
        autoescape=select_autoescape(default=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals["csrf"] = hidden_field
    made.globals["static"] = address
    made.globals.update(figure=figure, behind=behind, picture=picture)
    made.filters["trimmed"] = lambda words: str(words).removesuffix(", or")
    made.filters["field_words"] = field_words
    made.filters["q"] = lambda words: quote(str(words), safe="")
    add_amounts(made)
    return made


def not_found(request: Request, error: Exception) -> Response:
    """No such page."""
    return html(request, "lost.html", {}, status=404)


def trouble(request: Request, error: Exception) -> Response:
    """A fault of ours, said plainly."""
    return headed(html(request, "trouble.html", {}, status=500))
