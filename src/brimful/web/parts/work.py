"""How far the longer work has come; calling it off and taking it up again."""

from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from brimful.web.dated import mark
from brimful.web.parts.part import Part
from brimful.web.show import bench_of


def progress(request: Request) -> Response:
    """What is being worked out just now, "" when all is done."""
    sight = bench_of(request).sight()
    return JSONResponse(
        {
            "doing": sight.doing,
            "stopped": sight.stopped,
            "broken": sight.broken,
            "digest": sight.digest,
            "day": mark(sight),
        }
    )


def call_off(request: Request) -> Response:
    """Stop the longer work."""
    bench = bench_of(request)
    bench.call_off()
    return RedirectResponse(f"/p/{quote(bench.name)}/", 303)


def go_on(request: Request) -> Response:
    """Take the longer work up again."""
    bench = bench_of(request)
    bench.go_on()
    return RedirectResponse(f"/p/{quote(bench.name)}/", 303)


PARTS = (
    Part("work", progress),
    Part("work/stop", call_off, ("POST",)),
    Part("work/go-on", go_on, ("POST",)),
)
