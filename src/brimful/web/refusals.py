"""What was asked is not done: why, in words, on a page of its own."""

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from brimful.web.show import html

REFUSALS = {
    "400": "What was sent could not be read, so nothing was done. Load the page anew and try again.",
    "403": "This was asked by a page that is not Brimful's own, so nothing was done.",
    "token": "This page has been open since before Brimful was last started, or your browser keeps no cookies, so "
    "nothing was done. Go back: what you typed stands there still. Copy it, load the page anew, and send it again.",
    "405": "This address cannot be asked that way. Nothing was done.",
    "408": "What was sent took too long to arrive, so nothing was done. Try again where the network is better.",
    "413": "What was sent is larger than one megabyte, so nothing was done. Send less at a time.",
    "421": "This is not an address of this plan. Open the one that the terminal shows.",
}


def refused(request: Request, error: Exception) -> Response:
    """What was asked is not done, and why."""
    assert isinstance(error, HTTPException)
    words = REFUSALS.get(str(error.detail), REFUSALS.get(str(error.status_code), REFUSALS["400"]))
    answer = html(request, "refused.html", {"words": words}, error.status_code)
    answer.headers.update(error.headers or {})
    return answer


def unreadable(request: Request, error: Exception) -> Response:
    """The world stands in the way: a plan gone, a file that cannot be read."""
    name = str(request.path_params.get("plan", "The plan"))
    return html(request, "unreadable.html", {"words": str(error), "name": name}, status=409)
