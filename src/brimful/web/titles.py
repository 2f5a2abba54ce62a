"""Fields of the plan by the names that people read."""

from jinja2 import pass_context
from jinja2.runtime import Context

from brimful.web.sheet import LAST, MANY, ONE

TITLES = {at: title for at, title, _ in (*ONE, *LAST)}
ROWS = {at: title for at, title, *_ in MANY}


@pass_context
def field_words(context: Context, field: str) -> str:
    """A dotted field in words, rows by their names."""
    scene = context.get("scene")
    return field_named(field, [row.spec.name for row in scene.rows] if scene is not None else [])


def field_named(field: str, rows: list[str]) -> str:
    """A dotted field in the words of the page on which it is changed.

    >>> field_named("containers.2.set_out.feet", ["gate", "drive"]), field_named("containers.mix", [])
    ('Row “drive”, set out, feet', 'Row, mix')
    >>> field_named("site.planting_day", []), field_named("recipe.sun.plants", []), field_named("currency", [])
    ('The place, planting day', 'Planting “sun”, plants', 'currency')
    >>> field_named("recipe.plants.size", [])
    'Planting, plants, size'
    """
    first, *rest = field.split(".")
    title = TITLES.get(first) or ROWS.get(first) or first
    if first in ROWS and rest and (rest[0].isdigit() or (first == "recipe" and len(rest) > 1 and rest[0] != "plants")):
        title = f"{title} {_which(first, rest.pop(0), rows)}"
    return ", ".join([title, *rest]).replace("_", " ")


def _which(first: str, one: str, rows: list[str]) -> str:
    """One of several: a row or a planting by its name, others by their number."""
    if first == "containers" and 0 < int(one) <= len(rows):
        one = rows[int(one) - 1]
    return one if one.isdigit() else f"“{one}”"
