"""A file's bytes as text, or a clear word on why not."""

from pathlib import Path

from brimful.weather.problem import weather_error

LARGEST_BYTES = 64 * 1024 * 1024  # a century of one station in every element stays below it


def read_text(path: Path) -> str:
    """The text of a weather file: UTF-8, with or without byte order mark, or Latin-1.

    Raises:
        WeatherError: the file is missing, a directory, too large, empty or not text
    """
    name = str(path)
    try:
        size = path.stat().st_size
        if size > LARGEST_BYTES:
            raise weather_error(
                name,
                f"the file has {size / 2**20:.0f} MB",
                expected=f"at most {LARGEST_BYTES // 2**20} MB",
                remedy="Cut it to the years you need.",
            )
        return _decoded(path.read_bytes(), name)
    except OSError as problem:
        raise weather_error(
            name,
            f"the weather file cannot be read ({problem.strerror})",
            expected="a file that exists and may be read",
            remedy="Check the name; it is looked for beside the plan.",
        ) from problem


def _decoded(data: bytes, name: str) -> str:
    start = data[:65536]
    if any(mark in start for mark in (b"\x00", b"\x01", b"\x02", b"\x03", b"\x7f")):
        raise _no_text(name)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("latin-1")
        if any("\x80" <= sign < "\xa0" for sign in text[:65536]):
            raise _no_text(name) from None
    if not text.strip():
        raise weather_error(
            name, "the file is empty", expected="a table of days", remedy="Export it again from its source."
        )
    return text


def _no_text(name: str) -> Exception:
    return weather_error(
        name,
        "the file is not text",
        expected="CSV, GHCN-Daily or JSON text",
        remedy="Unpack it, or save it as CSV from the spreadsheet.",
    )
