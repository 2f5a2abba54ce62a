"""Levels of the pads: one level or one fall over uneven ground, cut and fill, bricks and shims under each."""

from collections.abc import Sequence
from enum import Enum
from math import floor
from statistics import fmean

from brimful.records import record


class Datum(Enum):
    """Which ground the line of pad tops is taken from."""

    MEAN = "the mean ground: some pads stand proud, some lie deep"
    HIGHEST = "the highest ground: no pad lies below its ground"
    LOWEST = "the lowest ground: no pad stands above its ground"


@record
class PadLevel:
    """One pad: ground and top against the datum, earth to cut or fill under it [m], and what lifts the rest."""

    number: int
    ground_m: float
    top_m: float
    cut_m: float
    fill_m: float

    @property
    def rise_m(self) -> float:
        """Top of the pad above the ground [m]; below zero where it lies under."""
        return self.top_m - self.ground_m


@record
class Packing:
    """Whole courses of brick and shims under one container, and the height still wrong [m]."""

    bricks: int
    shims: int
    error_m: float


def pad_levels(
    ground_m: Sequence[float],
    along_m: Sequence[float],
    *,
    build_up_m: float,
    fall: float = 0.0,
    reveal_m: float = 0.0,
    datum: Datum = Datum.MEAN,
) -> tuple[PadLevel, ...]:
    """Pad tops on one level or one fall, and the earth to cut or fill under each [m].

    Formula: top = datum + reveal + fall × distance; formation = top − layers; cut where ground is above it, fill below.
    Args: ground_m: measured ground at each pad [m]. along_m: distance of each along the line [m].
        build_up_m: base + bedding + brick [m]. fall: rise along the line, below zero to fall [m/m].
        reveal_m: tops above the datum's ground [m]; as much as the layers, on MEAN, cuts as much as it fills.
        datum: which ground rules.
    Returns: one level a pad.
    Valid: as many grounds as distances, at least one.
    Source: geometry.
    """
    if not ground_m or len(ground_m) != len(along_m):
        raise ValueError(f"{len(ground_m)} ground levels for {len(along_m)} pads; expected one each, at least one")
    above = [ground - fall * along for ground, along in zip(ground_m, along_m, strict=True)]
    start = {Datum.MEAN: fmean(above), Datum.HIGHEST: max(above), Datum.LOWEST: min(above)}[datum] + reveal_m
    return tuple(
        _pad_level(i, ground, start + fall * along, build_up_m)
        for i, (ground, along) in enumerate(zip(ground_m, along_m, strict=True), start=1)
    )


def _pad_level(number: int, ground_m: float, top_m: float, build_up_m: float) -> PadLevel:
    cut = ground_m - (top_m - build_up_m)
    return PadLevel(number, ground_m, top_m, max(0.0, cut), max(0.0, -cut))


def steady_fall(ground_m: Sequence[float], along_m: Sequence[float]) -> float:
    """The one fall that follows the ground best, by least squares [m/m].

    Formula: slope = Σ (x − x̄)(z − z̄) / Σ (x − x̄)².
    Args: ground_m: measured ground [m]. along_m: distances along the line [m].
    Returns: rise along the line [m/m].
    Valid: at least two distances that differ.
    Source: least squares.
    """
    if len(ground_m) != len(along_m) or len(set(along_m)) < 2:
        raise ValueError("a fall needs as many levels as distances, and at least two distances that differ")
    mean_x, mean_z = fmean(along_m), fmean(ground_m)
    across = sum((x - mean_x) * (z - mean_z) for x, z in zip(along_m, ground_m, strict=True))
    return across / sum((x - mean_x) ** 2 for x in along_m)


def packing(rise_m: float, *, brick_m: float, shim_m: float) -> Packing:
    """Whole courses of brick, then shims, that lift a container by a height, and what is still wrong [count, m].

    Formula: bricks = whole courses in the rise; shims = rest to the nearest shim.
    Args: rise_m: height to make up [m]. brick_m: thickness of a course [m]. shim_m: of a shim [m].
    Returns: bricks, shims, error (made less wanted); the error is never above half a shim.
    Valid: rise_m ≥ 0, brick_m > shim_m > 0.
    Source: arithmetic.

    >>> packing(0.130, brick_m=0.057, shim_m=0.006)
    Packing(bricks=2, shims=3, error_m=0.002)
    """
    if not (rise_m >= 0.0 and brick_m > shim_m > 0.0):
        raise ValueError(
            f"rise {rise_m:g} m, brick {brick_m:g} m, shim {shim_m:g} m; expected rise ≥ 0, brick > shim > 0"
        )
    bricks = floor(rise_m / brick_m + 1e-9)
    rest = rise_m - bricks * brick_m
    shims = floor(rest / shim_m + 0.5)
    return Packing(bricks, shims, round(shims * shim_m - rest, 9))
