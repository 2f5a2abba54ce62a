"""Today and the season's report as JSON, for a controller or a spreadsheet: each fits its published schema."""

import json
from datetime import date
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from brimful.design.today import TodayWorked
from brimful.design.today.report import SeasonReport
from brimful.render.as_json import schema, to_data
from brimful.services import example, work_out_report, work_out_today

DOCS = Path(__file__).parents[2] / "docs"


@pytest.mark.parametrize(("name", "of"), [("today", TodayWorked), ("report", SeasonReport)])
def test_the_schema_is_the_published_one(name: str, of: type) -> None:
    """docs/today-schema.json and docs/report-schema.json are the schemas of the program as it stands."""
    text = json.dumps(schema(of), indent=1, sort_keys=True, ensure_ascii=False) + "\n"
    assert (DOCS / f"{name}-schema.json").read_text(encoding="utf-8") == text


def test_an_example_fits_the_schema() -> None:
    """A day of the demo is valid against it, there and back."""
    answer = work_out_today(example("alder_point_landing"), on=date(2026, 7, 15))
    data = json.loads(json.dumps(to_data(answer.today), allow_nan=False))
    Draft202012Validator(schema(TodayWorked)).validate(data)
    assert data["zones"][0]["minutes_total"] == answer.today.zones[0].minutes_total


def test_a_report_fits_the_schema() -> None:
    """The report of the demo is valid against its schema."""
    answer = work_out_report(example("alder_point_landing"), on=date(2026, 10, 20))
    data = json.loads(json.dumps(to_data(answer.report), allow_nan=False))
    Draft202012Validator(schema(SeasonReport)).validate(data)
