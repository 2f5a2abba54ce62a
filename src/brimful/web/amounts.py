"""Quantities in templates: a number rounded as a person would act on it, its unit in a lighter ink."""

import re
from collections.abc import Callable
from datetime import date

from jinja2 import Environment, pass_context
from jinja2.runtime import Context
from markupsafe import Markup

from brimful.quantities import Dimension, System, show
from brimful.render.care.page import amount, money
from brimful.render.care.work import tape
from brimful.render.words import MONTHS

DIMENSIONS = {
    "long": Dimension.LENGTH,
    "area": Dimension.AREA,
    "volume": Dimension.VOLUME,
    "flow": Dimension.FLOW,
    "pressure": Dimension.PRESSURE,
    "mass": Dimension.MASS,
    "speed": Dimension.SPEED,
    "depth": Dimension.DEPTH,
    "temperature": Dimension.TEMPERATURE,
}
"""The filters that are named after what they show."""
_NUMBER = re.compile(r"([-+−]?[\d.,/\u202f]+(?: [\d/]+)?) (?=\D)")
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=%|[^\W\d_]{1,3}\b)")


def add_amounts(to: Environment) -> None:
    """Make the filters known: `{{ zone.flow_l_h|flow }}` in the units of the plan that the page shows."""
    for name, dimension in DIMENSIONS.items():
        to.filters[name] = _filter(dimension)
    to.filters.update(
        percent=percent,
        day=day,
        money=money,
        amount=_amount,
        tape=_tape,
        hours=hours,
        sentence=sentence,
        together=together,
    )


def unit_light(words: str) -> Markup:
    """A number with its unit in a lighter ink."""
    found = _NUMBER.match(words)
    if found is None or found.end() == len(words):
        return Markup.escape(words)
    return Markup('{}<span class="unit"> {}</span>').format(found[1], words[found.end() :])


def sentence(words: str) -> str:
    """Words with a capital at their beginning, where they begin with a plain word.

    >>> sentence("in zone 1"), sentence("year_1.csv: gaps"), sentence("angelonia, viola: too early")
    ('In zone 1', 'year_1.csv: gaps', 'Angelonia, viola: too early')
    """
    return words[:1].upper() + words[1:] if words.partition(" ")[0].rstrip(",:").isalpha() else words


def together(words: str) -> str:
    """Words in which a number and the short word behind it stay on one line."""
    return _BEFORE_UNIT.sub("\u00a0", words)


def percent(share: float) -> Markup:
    """A share as whole percent."""
    return unit_light(f"{100 * share:.0f} %")


def hours(value: float) -> Markup:
    """Hours to a tenth; minutes below one."""
    return unit_light(f"{60 * value:.0f} min" if value < 1 else f"{value:.1f} h")


def day(when: date | str) -> str:
    """A day as people say it; words that are no date stay.

    >>> day(date(2026, 5, 4)), day("2026-05-04"), day("in May")
    ('4 May', '4 May', 'in May')
    """
    if isinstance(when, str):
        try:
            when = date.fromisoformat(when)
        except ValueError:
            return str(when)
    return f"{when.day} {MONTHS[when.month - 1]}"


def _filter(dimension: Dimension) -> Callable[..., Markup]:
    @pass_context
    def shown(context: Context, value: float, *, small: bool = False) -> Markup:
        return unit_light(show(value, dimension, _system(context), small=small))

    return shown


@pass_context
def _amount(context: Context, value: float, unit: str) -> Markup:
    return unit_light(amount(value, unit, _system(context)))


@pass_context
def _tape(context: Context, length_m: float) -> str:
    return tape(length_m, _system(context))


def _system(context: Context) -> System:
    system: System = context["scene"].system
    return system
