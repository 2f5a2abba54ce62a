"""Values and keys as they are spelled in a plan file."""

import re
from collections.abc import Mapping, Sequence
from typing import Any

_BARE = re.compile(r"[A-Za-z0-9_-]+")


def spelled(value: Any) -> str:
    """A value in TOML, on one line.

    Raises:
        ValueError: a kind of value, or a text, that a plan file cannot hold.

    >>> spelled({"tube": 'pe "half"', "lengths": ["4 ft", 2]})
    '{ tube = "pe \\\\"half\\\\"", lengths = ["4 ft", 2] }'
    """
    if isinstance(value, Mapping):
        inner = ", ".join(spelled_field(key, one) for key, one in value.items())
        return f"{{ {inner} }}" if inner else "{}"
    if isinstance(value, Sequence) and not isinstance(value, str):
        return f"[{', '.join(map(spelled, value))}]"
    return _leaf(value)


def spelled_field(key: Any, value: Any) -> str:
    """A key and its value."""
    return f"{spelled_key(key)} = {spelled(value)}"


def spelled_key(key: Any) -> str:
    """A key, in quotes where it needs them.

    >>> spelled_key("apart"), spelled_key("row 1:fill")
    ('apart', '"row 1:fill"')
    """
    if not isinstance(key, str):
        raise ValueError(f"{key!r} was given; words were expected as a key")  # noqa: TRY004  (a caller's mistake like the others)
    return key if _BARE.fullmatch(key) else _leaf(key)


def _leaf(value: Any) -> str:
    import tomlkit

    if isinstance(value, str):
        value.encode("utf-8")
    elif value is None or isinstance(value, bytes):
        raise ValueError(f"{value!r} was given; a plan file cannot hold it")
    return str(tomlkit.item(value).as_string())
