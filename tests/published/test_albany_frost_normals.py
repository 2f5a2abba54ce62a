"""US climate normals 1991–2020, annual and seasonal, Albany NY: frost dates in the published layout.

Values read in a public test fixture of the normals; the layout's special values from memory.
"""

import pytest

from brimful.errors import WeatherError
from brimful.weather.frost_normals import FrostDay, frost_days

NAMES = ("PRBLST-T32FP10", "PRBLST-T32FP50", "PRBLST-T32FP90", "PRBFST-T32FP10", "PRBFST-T32FP50", "PRBFST-T32FP90")
VALUES = ("05/11", "04/27", "04/16", "10/03", "10/15", "11/01")
HEAD = '"STATION","NAME","ANN-TMIN-' + '","ANN-TMIN-'.join([*NAMES, "PRBLST-T28FP50", "PRBLST-T16FP90"]) + '"'
ROW = '"USW00014735","ALBANY","  ' + '","  '.join([*VALUES, "04/16", "-4444"]) + '"'


def test_the_published_dates_come_out_as_they_are() -> None:
    """Six dates at 32 °F and one at 28 °F, with their chances; "never" is left out."""
    days = frost_days(f"{HEAD}\n{ROW}\n", "albany.csv")
    assert len(days) == 7
    at_freezing = {(d.last, d.chance): f"{d.month:02d}/{d.day:02d}" for d in days if d.threshold_c == 0.0}
    chances = [(True, 0.1), (True, 0.5), (True, 0.9), (False, 0.1), (False, 0.5), (False, 0.9)]
    assert [at_freezing[key] for key in chances] == list(VALUES)
    assert FrostDay(pytest.approx(-2.2222, abs=1e-3), True, 0.5, 4, 16) in days


def test_a_higher_chance_lies_earlier_in_spring_and_later_in_autumn() -> None:
    """The last frost is on or after its date with the chance, the first on or before its date."""
    days = frost_days(f"{HEAD}\n{ROW}\n", "albany.csv")
    for last in (True, False):
        dates = [(d.month, d.day) for d in sorted(days, key=lambda d: d.chance) if d.last is last and not d.threshold_c]
        assert dates == sorted(dates, reverse=last)


@pytest.mark.parametrize("text", ["", "a,b\n1,2\n", HEAD + "\n", f"{HEAD}\n{ROW.replace('05/11', '13/41')}\n"])
def test_another_file_is_one_clear_error(text: str) -> None:
    """Nothing, other columns, no station, a date that is none."""
    with pytest.raises(WeatherError, match=r"albany\.csv"):
        frost_days(text, "albany.csv")
