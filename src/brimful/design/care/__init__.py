"""Build and care: set-out, order and cut list, handling, build, season tasks, feeding; from the worked design."""

from brimful.design.care.desk import CareDesk, season_year
from brimful.design.care.model import Care
from brimful.design.care.whole import PARTS, care_of

__all__ = ["PARTS", "Care", "CareDesk", "care_of", "season_year"]
