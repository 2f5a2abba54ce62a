"""Today as data, for a controller that asks each morning what to run."""

import re
from datetime import date

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from brimful.render.as_json import to_data
from brimful.web.clock import today
from brimful.web.dated import waited_for
from brimful.web.parts.part import Part
from brimful.web.show import bench_of


def as_json(request: Request) -> Response:
    """The same as `brimful today --json`; another day with `?on=2026-07-15`."""
    sight = bench_of(request).sight()
    asked = request.query_params.get("on", "")
    on = today() if not asked else _day(asked)
    if on is None:
        return JSONResponse({"words": f'on: "{asked[:40]}" was given; a day was expected, as 2026-07-15'}, 400)
    if sight.opened is None:
        return JSONResponse({"words": "The plan cannot be worked out.", "findings": to_data(sight.findings)}, 409)
    dated = waited_for(sight, on)
    if dated.today is None:
        words = dated.trouble or "Today cannot be worked out from this plan."
        return JSONResponse({"words": words, "findings": to_data(dated.findings)}, 409)
    return JSONResponse(to_data(dated.today), headers={"Cache-Control": "no-store"})


def _day(given: str) -> date | None:
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", given, re.ASCII):
        return None
    try:
        return date.fromisoformat(given)
    except ValueError:
        return None


PARTS = (Part("today.json", as_json),)
