"""The design as JSON: it fits its published schema, and every number carries its unit in its key."""

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from tests.contracts.units import bears_its_unit
from tests.design.plans import EXAMPLES

from brimful.design.model import Design
from brimful.render.as_json import schema, to_data
from brimful.services import example, work_out

FILE = Path(__file__).parents[2] / "docs" / "design-schema.json"


def data_of(name: str) -> Any:
    """The JSON of an example, there and back."""
    return json.loads(json.dumps(to_data(work_out(example(name)).design), allow_nan=False))


def numeric_keys(of: dict[str, Any]) -> set[str]:
    """Keys that the schema lets hold a number, in every table."""
    return {
        key
        for table in of["$defs"].values()
        for key, value in table.get("properties", {}).items()
        if any(f'"type": "{kind}"' in json.dumps(value) for kind in ("number", "integer"))
    }


def test_the_schema_is_the_published_one() -> None:
    """docs/design-schema.json is what `python -m brimful.render.as_json > docs/design-schema.json` writes."""
    assert (
        FILE.read_text(encoding="utf-8")
        == json.dumps(schema(Design), indent=1, sort_keys=True, ensure_ascii=False) + "\n"
    )


def test_the_schema_is_a_schema() -> None:
    """The schema itself is valid, and each of its tables is described."""
    whole = schema(Design)
    Draft202012Validator.check_schema(whole)
    assert all(table.get("description") for table in whole["$defs"].values())


@pytest.mark.parametrize("name", EXAMPLES)
def test_examples_fit_the_schema(name: str) -> None:
    """Each example's JSON is valid against the schema, findings and all."""
    data = data_of(name)
    Draft202012Validator(schema(Design)).validate(data)
    assert {finding["code"] for finding in data["findings"]} == {f.code for f in work_out(example(name)).findings}


def test_the_schema_refuses() -> None:
    """A key too many, a key too few or words for a number are not valid."""
    data, checker = data_of("balcony"), Draft202012Validator(schema(Design))
    zone = data["zones"][0]
    flow = zone.pop("flow_l_h")
    assert not checker.is_valid(data)
    zone["flow_l_h"] = "much"
    assert not checker.is_valid(data)
    zone |= {"flow_l_h": flow, "flow": flow}
    assert not checker.is_valid(data)


@pytest.mark.parametrize("key", sorted(numeric_keys(schema(Design))))
def test_every_number_carries_its_unit(key: str) -> None:
    """Each key that holds numbers ends in their unit, or names a plain number."""
    assert bears_its_unit(key)
