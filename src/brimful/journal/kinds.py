"""What can be written down: one row a kind, with the value it takes and where it belongs."""

import math
from typing import Literal

from brimful.quantities import Dimension
from brimful.records import record

Scope = Literal["container", "row", "zone", "whole"]
ANYWHERE: tuple[Scope, ...] = ("container", "row", "zone", "whole")


@record
class Kind:
    """One kind of entry. Its value is in the canonical unit of `dimension`, or a place in `choices`, counted from 0."""

    key: str
    name: str
    example: str
    at: tuple[Scope, ...] = ANYWHERE
    said: tuple[str, ...] = ()
    dimension: Dimension | None = None
    choices: tuple[str, ...] = ()
    most: float = math.inf
    timed: bool = False
    needs_words: bool = False

    @property
    def takes_value(self) -> bool:
        """Whether an entry of this kind says a quantity or one of a few words."""
        return self.dimension is not None or bool(self.choices)

    @property
    def begins(self) -> tuple[str, ...]:
        """The words that an entry of this kind may begin with."""
        return (self.name, *self.said)


KINDS: dict[str, Kind] = {
    kind.key: kind
    for kind in (
        Kind("finger", "finger test", "dry", ("container",), ("finger", "feels"), choices=("dry", "moist", "wet")),
        Kind("probe", "probe", "40 %", ("container",), dimension=Dimension.SHARE, most=1.0),
        Kind("weight", "weight", "61 lb", ("container",), ("weighs",), dimension=Dimension.MASS, most=20_000.0),
        Kind("catch", "catch", "300 mL in 5 min", ("container", "zone"), ("caught",),
             dimension=Dimension.VOLUME, most=10_000.0, timed=True),
        Kind("meter", "water meter", "1,234 gal", ("zone", "whole"), ("meter",), dimension=Dimension.VOLUME, most=1e9),
        Kind("rain", "rain", "0.4 in", ("whole",), ("rain gauge", "rained"), dimension=Dimension.DEPTH, most=2_000.0),
        Kind("ran", "ran", "12 min", ("zone", "whole"), dimension=Dimension.TIME, most=86_400.0),
        Kind("hand-watered", "watered by hand", "2 gal", said=("hand watered", "watered"),
             dimension=Dimension.VOLUME, most=10_000.0),
        Kind("fed", "fed", "fed"),
        Kind("deadheaded", "deadheaded", "deadheaded", said=("groomed",)),
        Kind("trimmed", "trimmed", "trimmed", said=("trim",)),
        Kind("replaced", "replaced", "replaced one angelonia", said=("replace",), needs_words=True),
        Kind("photo", "photo", "photo from the gate", said=("picture",), needs_words=True),
        Kind("problem", "problem", "problem drips at the stake", needs_words=True),
        Kind("mended", "mended", "mended new stake", said=("repaired", "fixed")),
        Kind("note", "note", "note the mulch has sunk", needs_words=True),
        Kind("withdrawn", "withdrawn", "withdrawn"),
    )
}  # fmt: skip
"""Every kind by its key. A catch without a time is that of a whole run; a water meter says what its dial shows."""
