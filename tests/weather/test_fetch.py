"""Fetching weather: a local server on loopback stands in for the service."""

import datetime
import json
import threading
import urllib.error
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer
from urllib.parse import parse_qs, urlsplit

import pytest

from brimful.errors import WeatherError
from brimful.weather.fetch import PAUSES_S, Asked, address_of, fetch
from brimful.weather.forecast import read_forecast

DAYS = {
    "latitude": 47.6,
    "elevation": 42.0,
    "daily_units": {"temperature_2m_max": "°C", "temperature_2m_min": "°C"},
    "daily": {"time": ["2015-07-01"], "temperature_2m_max": [30.0], "temperature_2m_min": [14.0]},
}


class Service(BaseHTTPRequestHandler):
    """Answers by path: /good, /busy (refuses twice, then answers), /refuse, /noise."""

    asked: list[str]
    busy: int

    def do_GET(self) -> None:
        """One request."""
        type(self).asked.append(self.path)
        path = urlsplit(self.path).path
        if path == "/busy" and type(self).busy > 0:
            type(self).busy -= 1
            self.say(503, "")
        elif path == "/refuse":
            self.say(400, json.dumps({"error": True, "reason": "Latitude must be in range of -90 to 90"}))
        elif path == "/noise":
            self.say(200, "<html>Sign in to the harbour network</html>")
        else:
            self.say(200, json.dumps(DAYS))

    def say(self, code: int, text: str) -> None:
        """Send it."""
        self.send_response(code)
        self.end_headers()
        self.wfile.write(text.encode())

    def log_message(self, format: str, *args: object) -> None:
        """Be quiet."""


@pytest.fixture
def service() -> Iterator[tuple[str, type[Service]]]:
    """A server on loopback: its address, and the class that keeps what was asked."""
    kept = type("Kept", (Service,), {"asked": [], "busy": 2})
    server = HTTPServer(("127.0.0.1", 0), kept)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}", kept
    server.shutdown()
    thread.join()
    server.server_close()


def test_answer_is_read(service: tuple[str, type[Service]]) -> None:
    """What the service says is handed on and can be read; it was asked for the place, once."""
    url, kept = service
    text = fetch(address_of(Asked(47.6, -122.3), forecast_url=f"{url}/good"))
    assert read_forecast(text, "answer").values["tmax_c"] == pytest.approx([30.0])
    (path,) = kept.asked
    assert parse_qs(urlsplit(path).query)["longitude"] == ["-122.3"]


def test_busy_service_is_asked_again(service: tuple[str, type[Service]]) -> None:
    """Two refusals for being busy are waited out."""
    url, kept = service
    waits: list[float] = []
    fetch(f"{url}/busy", wait=waits.append)
    assert waits == list(PAUSES_S)
    assert len(kept.asked) == 3


def test_refusal_is_told_at_once(service: tuple[str, type[Service]]) -> None:
    """A wrong question is not repeated; the service's reason is handed on."""
    url, kept = service
    with pytest.raises(WeatherError, match=r"refused with 400 .*Latitude must be in range"):
        fetch(f"{url}/refuse")
    assert len(kept.asked) == 1


def test_sign_in_page_is_no_weather(service: tuple[str, type[Service]]) -> None:
    """The page of a network that wants a sign-in is no weather."""
    with pytest.raises(WeatherError, match=r"is not JSON"):
        fetch(f"{service[0]}/noise")


def test_offline_is_said_after_three_tries() -> None:
    """Without a network there are three tries, then one clear sentence that says what works without it."""
    tries: list[float] = []

    def nothing(address: str, timeout_s: float) -> bytes:
        tries.append(timeout_s)
        raise urllib.error.URLError("Network is unreachable")

    with pytest.raises(WeatherError, match=r"no answer after 3 tries .*unreachable.* monthly normals"):
        fetch("https://weather.example/v1", opener=nothing, wait=[].append)
    assert len(tries) == 3


def test_time_out_is_offline_too() -> None:
    """An answer that does not come in time counts as none."""

    def slow(address: str, timeout_s: float) -> bytes:
        raise TimeoutError("timed out")

    with pytest.raises(WeatherError, match="timed out"):
        fetch("https://weather.example/v1", opener=slow, wait=[].append)


def test_archive_is_asked_by_dates() -> None:
    """Dates go to the archive, days to come to the forecast."""
    asked = Asked(47.6, -122.3, datetime.date(2014, 1, 1), datetime.date(2014, 12, 31))
    query = parse_qs(urlsplit(address_of(asked, archive_url="https://archive.example/")).query)
    assert (query["start_date"], query["end_date"]) == (["2014-01-01"], ["2014-12-31"])
    assert "forecast_days" not in query
    assert "forecast_days" in parse_qs(urlsplit(address_of(Asked(47.6, -122.3))).query)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"latitude_deg": 95.0}, "latitude 95.0°"),
        ({"first": datetime.date(2014, 1, 1)}, "one of first and last"),
        ({"first": datetime.date(2014, 1, 2), "last": datetime.date(2014, 1, 1)}, "the first day before the last"),
        ({"days": 17}, "17 days"),
    ],
)
def test_wrong_questions(wrong: dict[str, object], said: str) -> None:
    """A question that cannot be asked is refused before the network is touched."""
    with pytest.raises(ValueError, match=said):
        Asked(**({"latitude_deg": 47.6, "longitude_deg": -122.3} | wrong))  # type: ignore[arg-type]
