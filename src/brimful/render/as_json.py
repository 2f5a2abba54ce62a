"""A design as plain JSON data, and the JSON schema of that data, both read off the same frozen dataclasses."""

import inspect
import math
import types
from collections.abc import Mapping
from dataclasses import Field, fields, is_dataclass
from datetime import date, datetime
from enum import Enum
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

PLAIN = {str: "string", float: "number", int: "integer", bool: "boolean", type(None): "null"}
PLAIN |= {date: "string", datetime: "string"}


def to_data(value: Any) -> Any:
    """Dataclasses to dictionaries, tuples to lists, enums to their values; numbers and text as they are.

    A number that is not finite becomes null: JSON has no word for it.
    """
    if is_dataclass(value) and not isinstance(value, type):
        return {_name(f): to_data(getattr(value, f.name)) for f in fields(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple | list):
        return [to_data(one) for one in value]
    if isinstance(value, Mapping):
        return {str(key): to_data(one) for key, one in value.items()}
    return None if isinstance(value, float) and not math.isfinite(value) else value


def schema(cls: type) -> dict[str, Any]:
    """The JSON schema (draft 2020-12) of `to_data(cls(...))`."""
    definitions: dict[str, Any] = {}
    top = _schema_of(cls, definitions)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": cls.__name__,
        **top,
        "$defs": definitions,
    }


def _name(field: Field[Any]) -> str:
    return str(field.metadata.get("json", field.name))


def _schema_of(annotation: Any, definitions: dict[str, Any]) -> dict[str, Any]:
    if annotation in PLAIN:
        return {"type": PLAIN[annotation]}
    origin, inside = get_origin(annotation), get_args(annotation)
    if origin is Literal:
        return {"enum": list(inside)}
    if origin in (Union, types.UnionType):
        return {"anyOf": [_schema_of(one, definitions) for one in inside]}
    if origin is tuple:
        return {"type": "array", "items": _schema_of(inside[0], definitions)}
    if isinstance(annotation, type) and issubclass(annotation, Enum):
        return {"enum": [one.value for one in annotation]}
    return _table(annotation, definitions)


def _table(cls: Any, definitions: dict[str, Any]) -> dict[str, Any]:
    if cls.__name__ not in definitions:
        definitions[cls.__name__] = {}
        hints = get_type_hints(cls)
        keys = {_name(f): _schema_of(hints[f.name], definitions) for f in fields(cls)}
        definitions[cls.__name__] = {
            "type": "object",
            "description": inspect.getdoc(cls),
            "properties": keys,
            "required": list(keys),
            "additionalProperties": False,
        }
    return {"$ref": f"#/$defs/{cls.__name__}"}


if __name__ == "__main__":  # writes docs/design-schema.json to the output
    import json

    from brimful.design.model import Design

    print(json.dumps(schema(Design), indent=1, sort_keys=True, ensure_ascii=False))
