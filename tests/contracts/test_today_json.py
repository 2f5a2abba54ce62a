"""Today as JSON, for a controller: it fits its published schema."""

import json
from datetime import date
from pathlib import Path

from jsonschema import Draft202012Validator

from brimful.design.today import TodayWorked
from brimful.render.as_json import schema, to_data
from brimful.services import example, work_out_today

FILE = Path(__file__).parents[2] / "docs" / "today-schema.json"


def test_the_schema_is_the_published_one() -> None:
    """docs/today-schema.json is the schema of the program as it stands."""
    text = json.dumps(schema(TodayWorked), indent=1, sort_keys=True, ensure_ascii=False) + "\n"
    assert FILE.read_text(encoding="utf-8") == text


def test_an_example_fits_the_schema() -> None:
    """A day of the demo is valid against it, there and back."""
    answer = work_out_today(example("alder_point_landing"), on=date(2026, 7, 15))
    data = json.loads(json.dumps(to_data(answer.today), allow_nan=False))
    Draft202012Validator(schema(TodayWorked)).validate(data)
    assert data["zones"][0]["minutes_total"] == answer.today.zones[0].minutes_total
