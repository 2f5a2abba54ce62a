"""How a weather file's problem is told: where, what was given, what was expected, what to do."""

from brimful.errors import WeatherError


def weather_error(file: str, given: str, *, expected: str, remedy: str, line: int = 0) -> WeatherError:
    """A WeatherError in one sentence and a remedy; line 0 means the file as a whole."""
    where = f"{file}:{line}" if line else file
    return WeatherError(f"{where}: {given}; expected {expected}. {remedy}".rstrip())


def clip(text: str, most: int = 40) -> str:
    """A cell or line short enough for a message, without signs that a terminal would obey."""
    plain = "".join(sign if sign.isprintable() else "�" for sign in text[: most + 1])
    return plain if len(plain) <= most else plain[:most] + "…"
