"""`brimful weather`: a file from the network, which is an argument here; a clear word when there is none."""

import datetime
import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from brimful import services
from brimful.cli import brimful
from brimful.errors import WeatherError
from brimful.weather import fetch

PLAN = '[site]\nlatitude = 47.6\nlongitude = -122.3\n[[containers]]\nname = "a"\ncontainer = "round-concrete-31x25"\n'
ANSWER = {
    "latitude": 47.6, "longitude": -122.3, "elevation": 20.0,
    "daily_units": {"time": "iso8601", "temperature_2m_max": "°C", "temperature_2m_min": "°C"},
    "daily": {
        "time": ["2026-06-01", "2026-06-02"], "temperature_2m_max": [21.0, 23.0], "temperature_2m_min": [11.0, 12.0]
    },
}  # fmt: skip


def plan_in(folder: Path, text: str = PLAN) -> Path:
    """A plan file."""
    plan = folder / "plan.toml"
    plan.write_text(text, encoding="utf-8")
    return plan


def test_what_is_fetched_is_saved_and_asks_for_the_place(tmp_path: Path) -> None:
    """The answer is written as it came; the address names latitude, longitude and the days."""
    asked: list[str] = []

    def opener(address: str, timeout_s: float) -> bytes:
        asked.append(address)
        return json.dumps(ANSWER).encode()

    out = tmp_path / "w.json"
    days = (datetime.date(2026, 6, 1), datetime.date(2026, 6, 2))
    services.fetch_weather(plan_in(tmp_path), out, days, opener=opener)
    assert json.loads(out.read_text(encoding="utf-8")) == ANSWER
    assert all(word in asked[0] for word in ("latitude=47.6", "longitude=-122.3", "start_date=2026-06-01"))


def test_no_network_is_one_clear_sentence_and_no_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Offline: what is so, what to do instead, exit code 1, nothing written."""

    def nothing(address: str, timeout_s: float) -> bytes:
        raise OSError("no route")

    monkeypatch.setattr(fetch, "open_url", nothing)
    monkeypatch.setattr(fetch, "_sleep", lambda _: None)
    result = CliRunner().invoke(brimful, ["weather", str(plan_in(tmp_path)), "-o", str(tmp_path / "w.json")])
    assert result.exit_code == 1
    assert "no answer after 3 tries" in result.output
    assert "weather file that you have" in result.output
    assert not (tmp_path / "w.json").exists()


def test_a_file_that_is_there_stays(tmp_path: Path) -> None:
    """Nothing is fetched over an existing file."""
    (tmp_path / "w.json").write_text("mine", encoding="utf-8")
    result = CliRunner().invoke(brimful, ["weather", str(plan_in(tmp_path)), "-o", str(tmp_path / "w.json")])
    assert result.exit_code == 1
    assert (tmp_path / "w.json").read_text(encoding="utf-8") == "mine"


def test_one_day_alone_is_wrong_usage(tmp_path: Path) -> None:
    """--from without --to is exit code 2."""
    result = CliRunner().invoke(brimful, ["weather", str(plan_in(tmp_path)), "--from", "2026-01-01"])
    assert result.exit_code == 2


@pytest.mark.parametrize("text", [PLAN.replace("longitude = -122.3\n", ""), "[site", PLAN.replace("47.6", "470")])
def test_a_plan_without_a_place_cannot_be_fetched_for(tmp_path: Path, text: str) -> None:
    """No longitude, not TOML, a latitude off the globe: one sentence."""
    with pytest.raises(WeatherError, match=r"place|errors"):
        services.fetch_weather(plan_in(tmp_path, text), tmp_path / "w.json", None, opener=None)
