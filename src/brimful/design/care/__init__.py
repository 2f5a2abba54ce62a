"""Build and care: set-out, order and cut list, handling, build, season tasks, feeding; from the worked design."""

from importlib import import_module
from typing import TYPE_CHECKING, Any

from brimful.design.care.model import Care

if TYPE_CHECKING:
    from brimful.design.care.desk import CareDesk, season_year
    from brimful.design.care.whole import PARTS, care_of

__all__ = ["PARTS", "Care", "CareDesk", "care_of", "season_year"]


HOMES = {"CareDesk": "desk", "season_year": "desk", "PARTS": "whole", "care_of": "whole"}


def __getattr__(name: str) -> Any:
    """The sums are read when they are first asked for: who only shows their answers need not wait for them."""
    if name not in HOMES:
        raise AttributeError(name)
    return getattr(import_module(f"{__name__}.{HOMES[name]}"), name)
