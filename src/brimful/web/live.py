"""A chart as the browser draws it: the one that prints, with values under the pointer and a legend to choose from."""

from collections.abc import Iterator
from copy import deepcopy
from typing import Any

from brimful.render.charts.vega import Spec

CHANNELS = ("x", "x2", "y", "yOffset", "color", "fill")
QUANTITY = "quantitative"
FAINT = 0.12
HIDDEN = {"filled": True, "opacity": 0, "size": 60}
Column = dict[str, Any]
Drawn = tuple[str, dict[str, Column], list[dict[str, Any]]]
Table = tuple[str, list[str], list[list[str]]]


def live(chart: Spec) -> Spec:
    """The chart with tooltips, and, where a legend tells series apart, with a choice of them."""
    made = deepcopy(chart)
    for unit in units(made):
        told = columns(made, unit)
        if len(told) > 1 and kind(unit) != "text":
            unit["encoding"] = {**unit.get("encoding", {}), "tooltip": told}
            _hold_points(unit)
            _choose(unit)
    return made


def units(chart: Spec) -> list[Spec]:
    """The layers of a chart, or the chart itself where it has none."""
    return list(chart.get("layer", [chart]))


def kind(unit: Spec) -> str:
    """The mark of a layer."""
    mark = unit["mark"]
    return str(mark["type"] if isinstance(mark, dict) else mark)


def columns(chart: Spec, unit: Spec) -> list[Column]:
    """What a mark of a layer says: the values behind it, each with its unit, rounded."""
    encoding = {**chart.get("encoding", {}), **unit.get("encoding", {})}
    rows = rows_of(chart, unit)
    told: list[Column] = encoding.get("tooltip", []) or list(_encoded(encoding).values())
    return [
        {**one, "format": _format([row[str(one["field"])] for row in rows])} if one["type"] == QUANTITY else one
        for one in told
    ]


def rows_of(chart: Spec, unit: Spec) -> list[dict[str, Any]]:
    """The rows that a layer draws."""
    data: Spec = unit.get("data") or chart["data"]
    return list(data["values"])


def tables(chart: Spec) -> Iterator[Table]:
    """The values of a chart for those who do not see it: what draws them, heads, and rows in words."""
    known: dict[int, Drawn] = {}
    for unit in units(chart):
        told = columns(chart, unit)
        if len(told) > 1:
            own: Drawn = (kind(unit), {}, rows_of(chart, unit))
            known.setdefault(id(unit.get("data")), own)[1].update({one["field"]: one for one in told})
    for mark, heads, rows in known.values():
        yield mark, [one["title"] for one in heads.values()], [_words(heads, row) for row in rows]


def _encoded(encoding: Spec) -> dict[str, Column]:
    found: dict[str, Column] = {}
    for channel in CHANNELS:
        one = encoding.get(channel, {})
        if "field" not in one or one.get("scale", {}) is None:
            continue
        field: str = one["field"]
        like = {**encoding.get(channel.removesuffix("2"), {}), **one}
        found.setdefault(field, {"field": field, "type": like["type"], "title": _title(field, like.get("title"))})
    return found


def _title(field: str, title: str | None) -> str:
    return field if not title else title if field in title else f"{field}, {title}"


def _digits(values: list[float]) -> int:
    """So many behind the point that three figures of the greatest show."""
    most = max(map(abs, values), default=0.0)
    return 0 if most >= 100 else 1 if most >= 10 else 2


def _format(values: list[float]) -> str:
    return f",.{_digits(values)}~f"


def _words(heads: dict[str, Column], row: dict[str, Any]) -> list[str]:
    return [_word(row[field], one.get("format", "")) for field, one in heads.items()]


def _word(value: Any, form: str) -> str:
    """A value as the tooltip writes it."""
    if not form:
        return str(value)
    said = format(value, form.replace("~", ""))
    said = said.rstrip("0").rstrip(".") if "." in said else said
    return "0" if said == "-0" else said.replace("-", "−")


def _hold_points(unit: Spec) -> None:
    """A line is one thing to the pointer: points that are not seen hold its values."""
    if kind(unit) == "line":
        mark = unit["mark"] if isinstance(unit["mark"], dict) else {"type": "line"}
        unit["mark"] = {"point": HIDDEN, **mark}


def _choose(unit: Spec) -> None:
    """Touch a name in the legend, and the others step back."""
    encoding, mark = unit["encoding"], unit["mark"]
    field = encoding.get("color", {}).get("field")
    if field:
        hidden = isinstance(mark, dict) and mark.get("point") == HIDDEN
        unit["params"] = [{"name": "chosen", "select": {"type": "point", "fields": [field]}, "bind": "legend"}]
        fading = "strokeOpacity" if hidden else "opacity"
        encoding[fading] = {"condition": {"param": "chosen", "value": 1}, "value": FAINT}
