"""Words of a plan as words: rich reads what stands in square brackets as an instruction unless told otherwise."""

from dataclasses import fields, is_dataclass, replace
from typing import TypeVar, cast

from rich.markup import escape

from brimful.design.model import NetworkWorked

Value = TypeVar("Value")


def as_words(value: Value) -> Value:
    """The same value with every text in it made safe to print; networks, which no summary prints, are left alone."""
    made: object = value
    if isinstance(value, str):
        made = escape(value)
    elif isinstance(value, tuple):
        made = tuple(as_words(one) for one in value)
    elif is_dataclass(value) and not isinstance(value, type | NetworkWorked):
        made = replace(value, **{f.name: as_words(getattr(value, f.name)) for f in fields(value)})
    return cast(Value, made)
