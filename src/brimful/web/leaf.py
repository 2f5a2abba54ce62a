"""A page: the sentences that answer first, what each container says through this lens, and what stands below."""

from collections.abc import Callable, Mapping
from dataclasses import field
from typing import Any

from brimful.records import record
from brimful.web.bench import Sight


@record
class Asked:
    """What a visitor wants to see of a page: one container ("" for all), so many weeks after planting, and `more`:
    whatever else the address says."""

    container: str = ""
    week: int = 8
    more: Mapping[str, str] = field(default_factory=dict)


@record
class Mark:
    """What a container says through a lens: a word or figure, and how it stands: "", "good", "mind" or "bad"."""

    word: str
    tone: str = ""


@record
class Leaf:
    """What one page shows of a plan; `told` says what the marks of the containers are."""

    sentences: tuple[str, ...] = ()
    marks: Mapping[str, Mark] = field(default_factory=dict)
    inside: Mapping[str, Any] = field(default_factory=dict)
    told: str = ""


@record
class Page:
    """A lens on the row: its place in the address, its name, its template, and how it looks at a plan in sight.

    `look` is asked only for a plan whose scene could be drawn.
    """

    key: str
    title: str
    template: str
    look: Callable[[Sight, Asked], Leaf]
