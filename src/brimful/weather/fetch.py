"""A public forecast or archive service's answer over HTTPS. The network is one argument: anything can stand in for it.

The services are those of the Open-Meteo interface (read in public fixtures): no key, daily values as JSON.
"""

import datetime
import http.client
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Callable

from brimful.errors import WeatherError
from brimful.records import record
from brimful.weather.forecast import DAILY_NAMES, read_forecast
from brimful.weather.problem import clip

FORECAST_URL = "https://api.open-meteo.com/v1/forecast"
ARCHIVE_URL = "https://archive-api.open-meteo.com/v1/archive"
LONGEST_FORECAST_DAYS = 16
TIMEOUT_S = 20.0
PAUSES_S = (1.0, 4.0)  # waits before the second and the third try
LARGEST_ANSWER_BYTES = 16 * 1024 * 1024

Opener = Callable[[str, float], bytes]  # address and time-out [s] → the answer's body; OSError where there is none


@record
class Asked:
    """What to ask for: the days to come, or from one date to another (both or neither are given)."""

    latitude_deg: float
    longitude_deg: float
    first: datetime.date | None = None
    last: datetime.date | None = None
    days: int = LONGEST_FORECAST_DAYS

    def __post_init__(self) -> None:
        if not (abs(self.latitude_deg) <= 90.0 and abs(self.longitude_deg) <= 180.0):
            raise ValueError(
                f"latitude {self.latitude_deg}° and longitude {self.longitude_deg}° were given; "
                "expected -90 to 90° and -180 to 180°"
            )
        if (self.first is None) != (self.last is None):
            raise ValueError("one of first and last was given; expected both, or neither for a forecast")
        if self.first and self.last and self.first > self.last:
            raise ValueError(f"{self.first} to {self.last} was given; expected the first day before the last")
        if not 1 <= self.days <= LONGEST_FORECAST_DAYS:
            raise ValueError(f"{self.days} days were given; expected 1 to {LONGEST_FORECAST_DAYS}")


def address_of(asked: Asked, *, forecast_url: str = FORECAST_URL, archive_url: str = ARCHIVE_URL) -> str:
    """The address that answers what is asked.

    >>> address_of(Asked(47.6, -122.3, days=7)).split("&daily=")[0]
    'https://api.open-meteo.com/v1/forecast?latitude=47.6&longitude=-122.3'
    """
    query = {
        "latitude": f"{asked.latitude_deg:g}",
        "longitude": f"{asked.longitude_deg:g}",
        "daily": ",".join(DAILY_NAMES),
        "timezone": "auto",
        "wind_speed_unit": "ms",
    }
    if asked.first is None or asked.last is None:
        query["forecast_days"] = str(asked.days)
    else:
        query |= {"start_date": asked.first.isoformat(), "end_date": asked.last.isoformat()}
    url = forecast_url if asked.first is None else archive_url
    return f"{url}?{urllib.parse.urlencode(query, safe=',')}"


def fetch(address: str, *, opener: Opener | None = None, wait: Callable[[float], object] | None = None) -> str:
    """The service's answer as text, ready to be saved and read; tried up to three times.

    Args:
        address: what to ask, from `address_of`
        opener: the network; HTTPS with a time-out where None
        wait: how to wait between two tries; time.sleep where None
    Raises:
        WeatherError: offline, refused, or an answer that cannot be read as daily weather; says what to do
    """
    text = _tried(address, opener or open_url, wait or _sleep)
    read_forecast(text, _host(address))
    return text


def open_url(address: str, timeout_s: float) -> bytes:
    """The body that stands at an address; redirects are followed, no more than 16 MB are read.

    Raises:
        OSError: no connection, no answer in time, or a refusal (urllib.error.HTTPError)
    """
    request = urllib.request.Request(address, headers={"User-Agent": "brimful", "Accept": "application/json"})
    with urllib.request.urlopen(request, timeout=timeout_s) as answer:
        try:
            body: bytes = answer.read(LARGEST_ANSWER_BYTES)
        except http.client.HTTPException as problem:
            raise ConnectionError(f"the answer broke off ({type(problem).__name__})") from problem
        return body


def _tried(address: str, opener: Opener, wait: Callable[[float], object]) -> str:
    for pause in (*PAUSES_S, None):
        try:
            return opener(address, TIMEOUT_S).decode("utf-8")
        except UnicodeDecodeError as problem:
            raise WeatherError(
                f"{_host(address)}: the answer is not text; expected JSON. Try again later."
            ) from problem
        except urllib.error.HTTPError as problem:
            if pause is None or problem.code not in (429, 500, 502, 503, 504):
                raise _refused(address, problem) from problem
        except OSError as problem:
            if pause is None:
                raise _offline(address, problem) from problem
        wait(pause)
    raise AssertionError("the last try either answers or raises")


def _refused(address: str, problem: urllib.error.HTTPError) -> WeatherError:
    said = clip(problem.read(2000).decode("utf-8", "replace").strip(), 200)
    reason = f' ("{said}")' if said else ""
    return WeatherError(
        f"{_host(address)}: the service refused with {problem.code} {problem.reason}{reason}; expected daily weather. "
        "Check the place and the dates, or try again in an hour."
    )


def _offline(address: str, problem: OSError) -> WeatherError:
    why = getattr(problem, "reason", None) or problem
    return WeatherError(
        f"{_host(address)}: no answer after {len(PAUSES_S) + 1} tries ({clip(str(why), 120)}); expected a connection "
        "to the internet. Brimful works without it: use a weather file that you have, or monthly normals in the plan."
    )


def _host(address: str) -> str:
    return urllib.parse.urlsplit(address).netloc or clip(address)


def _sleep(pause_s: float) -> None:
    import time

    time.sleep(pause_s)
