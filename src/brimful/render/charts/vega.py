"""What all charts share: the look, and the way to print."""

from functools import lru_cache
from typing import Any

from brimful.render.drawings.svg import ALARM, INK, LEAF, SOFT, WATER, folded

Spec = dict[str, Any]
SCHEMA = "https://vega.github.io/schema/vega-lite/v5.json"
COLOURS = (WATER, "#D08A5B", LEAF, "#B59A2E", "#5B4B8A", "#8A8F8C", ALARM, "#5FA8B8")
"""Dark and light in turn, so that grey print and weak colour sight keep neighbours apart."""
LEGEND_COLUMNS = 3
PHONE_LETTERS = 34
"""A chart narrower than so many times its letters has room for fewer columns."""


def spec(title: str, under: str, rows: list[dict[str, Any]], *, height: float, **parts: Any) -> Spec:
    """A specification: the finding as title, what is drawn under it, the rows, marks and encoding."""
    return {
        "$schema": SCHEMA,
        "title": {"text": title, "subtitle": under},
        "data": {"values": rows},
        "width": "container",
        "height": height,
        **parts,
    }


def axis(field: str, title: str | None, kind: str = "quantitative", **more: Any) -> dict[str, Any]:
    """One channel: field, what its axis says, and its type."""
    return {"field": field, "title": title, "type": kind, **more}


def weeks_axis(labels: list[str]) -> dict[str, Any]:
    """The weeks along x, in the order of the season."""
    return axis(
        "week",
        "week of",
        "ordinal",
        sort=labels,
        axis={"labelAngle": 0, "labelOverlap": "greedy", "labelSeparation": 8, "labelBound": True},
    )


def config(size: float, room: float) -> dict[str, Any]:
    """Ink on paper: thin grid, no frame, letters of one size."""
    words = {
        "labelFontSize": size,
        "titleFontSize": size,
        "labelColor": INK,
        "titleColor": SOFT,
        "titleFontWeight": "normal",
    }
    fits = LEGEND_COLUMNS if room >= PHONE_LETTERS * size else 2
    columns = {"columns": fits, "labelLimit": room / fits - (5 if fits == LEGEND_COLUMNS else 3) * size}
    return {
        "font": "Source Sans Pro",
        "background": None,
        "view": {"stroke": None},
        "title": {
            "anchor": "start",
            "fontSize": 1.2 * size,
            "subtitleFontSize": size,
            "color": INK,
            "subtitleColor": SOFT,
            "offset": 8,
        },
        "axis": {**words, "gridColor": "#E3DED2", "domainColor": SOFT, "tickColor": SOFT, "labelLimit": 22 * size},
        "legend": {**words, "symbolType": "square", "orient": "bottom", "offset": 6, **columns},
        "range": {"category": list(COLOURS)},
        "text": {"fontSize": size, "color": INK},
    }


def printed(chart: Spec, width: float, size: float) -> str:
    """The chart as SVG of this width, letters of this size."""
    import vl_convert

    fonts()
    room = width - 4
    fitted = {
        **chart,
        "title": {
            part: folded(words, room, 1.2 * size if part == "text" else size) for part, words in chart["title"].items()
        },
        "width": room,
        "autosize": {"type": "fit-x", "contains": "padding"},
        "padding": 2,
        "config": config(size, room),
    }
    return str(vl_convert.vegalite_to_svg(fitted, vl_version="5.20"))


@lru_cache(maxsize=1)
def fonts() -> None:
    """Let the printer of charts know the sans of the book."""
    import vl_convert

    from brimful.render.fonts import font_folder

    vl_convert.register_font_directory(font_folder())
