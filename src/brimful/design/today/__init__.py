"""Today: what to run, what is due, and which container to look at, from the journal and the weather so far."""

from brimful.design.today.model import TodayWorked
from brimful.design.today.told import Told
from brimful.design.today.whole import today_of

__all__ = ["TodayWorked", "Told", "today_of"]
