"""A number that can be touched: it leads to the working behind it."""

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from urllib.parse import quote

from jinja2 import pass_context
from jinja2.runtime import Context
from markupsafe import Markup

from brimful.quantities import Dimension, System, show
from brimful.render.explain import shown
from brimful.web.bench import Sight

UNITS = {
    "mm_day": "mm a day", "l_day": "L a day", "g_l": "g/L", "l_h": "L/h", "m_s": "m/s", "tsp_gal": "teaspoons a gallon",
    "m2": "m²", "per_m": "per m", "l": "L", "kg": "kg", "m": "m", "g": "g", "min": "min", "kpa": "kPa",
    "share": "as a share of 1", "percent": "%", "count": "",
}  # fmt: skip
"""Endings of a figure's name that say its unit."""
DIMENSIONS = {
    "l": Dimension.VOLUME, "kg": Dimension.MASS, "m": Dimension.LENGTH, "m2": Dimension.AREA, "l_h": Dimension.FLOW,
    "m_s": Dimension.SPEED,
}  # fmt: skip
"""What those units measure that a plan may want in others."""
_UNIT = re.compile(rf"_({'|'.join(UNITS)})$")


@pass_context
def figure(context: Context, path: str, words: object) -> Markup:
    """Words that lead to how the figure at a path of the ledger came about; plain words where it tells nothing."""
    sight: Sight = context["sight"]
    if path not in sight.workings:
        return Markup.escape(words)
    return Markup('<a class="figure" href="{}">{}</a>').format(_address(context, path), words)


@pass_context
def behind(context: Context, *starts: str) -> Iterator[tuple[str, str, str]]:
    """Address, name and value of every figure whose path begins so."""
    sight: Sight = context["sight"]
    for path, working in sight.workings.items():
        if path.startswith(starts):
            yield _address(context, path), figure_words(path), measured(path, working.value)


def value_of(path: str, value: object) -> object:
    """The value that a figure's name means, where its function gives several together."""
    if not is_dataclass(value):
        return value
    name = path.rsplit("/", 1)[-1].partition(" ")[0]
    meant = [f.name for f in fields(value) if name == f.name or name.endswith(f"_{f.name}")]
    return getattr(value, max(meant, key=len)) if meant else value


def measured(path: str, value: object) -> str:
    """What a figure comes to, with its unit."""
    meant = value_of(path, value)
    return told(meant) if is_dataclass(meant) else with_unit(path, told(meant))


def told(value: object) -> str:
    """A value in few words; of several together each with its name."""
    if not is_dataclass(value) or isinstance(value, type):
        return shown(value)
    plain = [(f.name, getattr(value, f.name)) for f in fields(value)]
    return "; ".join(
        f"{without_unit(name)} {with_unit(name, shown(one))}"
        for name, one in plain
        if isinstance(one, int | float | str)
    )


def figure_words(path: str) -> str:
    """A path of the ledger as words.

    >>> figure_words("rows/water side/peak/demand_l_day"), figure_words("care/order/end-plug")
    ('water side, peak: demand', 'order: end-plug')
    >>> figure_words("orders/geranium-zonal 4in/tray_order")
    'geranium zonal 4in: tray order'
    """
    *where, last = path.split("/")
    name, _, which = last.partition(" ")
    words, plain = without_unit(name), which.replace("-", " ")
    told = ", ".join(part.replace("_", " ") for part in where[1:]) or where[0] if where else ""
    if where[:1] == ["orders"]:
        told = told.replace("-", " ")
    return f"{told}: {words}{f' of {plain}' if plain else ''}" if told else words


def without_unit(name: str) -> str:
    """A name of the ledger in words, its unit left out.

    >>> without_unit("container_flow_l_h")
    'container flow'
    """
    return _UNIT.sub("", name).replace("_", " ")


def with_unit(path: str, value: str) -> str:
    """A value with the unit that its figure's name tells.

    >>> with_unit("rows/gate/mix_to_buy_l", "281.4")
    '281.4 L'
    """
    found = _UNIT.search(path.rsplit("/", 1)[-1].partition(" ")[0])
    return f"{value} {UNITS[found[1]]}".strip() if found else value


def in_us(path: str, value: object, system: System) -> str:
    """The same once more in the units of a plan that measures in feet and gallons; "" for others.

    >>> in_us("rows/gate/water_held_l", 195.33, System.US)
    ' (51.6 gal)'
    """
    found = _UNIT.search(path.rsplit("/", 1)[-1].partition(" ")[0])
    if system is not System.US or found is None or found[1] not in DIMENSIONS or not isinstance(value, float):
        return ""
    return f" ({show(value, DIMENSIONS[found[1]], system)})"


def _address(context: Context, path: str) -> str:
    return f"{context['home']}explain/{quote(path, safe='/')}"
