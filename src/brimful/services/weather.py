"""Weather fetched for a plan's place."""

from pathlib import Path
from typing import TYPE_CHECKING

from brimful.plan.read import read_plan
from brimful.services.saving import save_whole

if TYPE_CHECKING:
    from datetime import date

    from brimful.weather.fetch import Opener


def fetch_weather(path: Path, out: Path, days: "tuple[date, date] | None", *, opener: "Opener | None" = None) -> None:
    """Fetch daily weather for a plan's place and save it whole; `opener` is the network.

    Raises:
        BrimfulError: the plan cannot be read or names no place; no answer; `out` cannot be written
    """
    from brimful.errors import WeatherError
    from brimful.weather.fetch import Asked, address_of, fetch

    plan = read_plan(path).plan
    if plan is None:
        raise WeatherError(f"{path}: the plan has errors; `brimful check {path}` lists them")
    if plan.site.latitude is None or plan.site.longitude is None:
        missing = " and ".join(key for key in ("latitude", "longitude") if getattr(plan.site, key) is None)
        raise WeatherError(f"{path}: {missing} not given; add {missing} under [site], in degrees")
    first, last = days or (None, None)
    try:
        asked = Asked(plan.site.latitude, plan.site.longitude, first, last)
        text = fetch(address_of(asked), opener=opener, wait=None if opener is None else lambda _: None)
        save_whole(out, text)
    except ValueError as error:
        raise WeatherError(str(error)) from error
    except OSError as error:
        raise WeatherError(f"{out} cannot be written: {error.strerror}") from error
