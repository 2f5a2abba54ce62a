"""How much flows into something at a head: one curve, worked out only where it is asked for.

A march gives exact points of the curve without iteration, each with its slope. Between them stands a cubic in the
square root of the head, and every piece is checked at its middle before it is first used, and halved where it is not
good enough.
"""

import math
from bisect import bisect_right
from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from brimful.domains.hydraulics.arrays import Array

CHECK = 1e-7  # of the flow at the middle of a piece; its halves are sixteen times better
NARROWEST_M = 1e-7  # pieces are not halved below this
FIRST_END = 1e-4  # √m; below this head at the far end the curve is a straight line in √h through nothing


class Point(NamedTuple):
    """One exact point of a curve."""

    end: float  # what was chosen: √ of the head at the far end [√m]
    head_m: float  # the head it takes at the near end, above that at which flow begins
    flow_l_h: float
    slope: float  # of flow against head [L/h per m]
    heads_m: tuple[float, ...] = ()  # pressure heads along the way, as the march met them
    head_slopes: tuple[float, ...] = ()  # and their slopes against the head at the near end


class ResponseCurve:
    """Inflow against head, from a march `end → Point`; an emitter law like any other."""

    __slots__ = ("_arrays", "_checked", "_cubics", "_heads", "_march", "_points", "_step", "threshold_m")

    def __init__(self, march: Callable[[float], Point], *, threshold_m: float = 0.0, step: float = 0.125) -> None:
        self.threshold_m = threshold_m  # pressure head at the near end at which flow begins [m]
        self._march, self._step = march, step
        self._heads: list[float] = []
        self._points: list[Point] = []
        self._cubics: list[tuple[float, float, float, float, float]] = []  # √head at its start, then a, b, c, d
        self._checked: list[bool] = []
        self._arrays: tuple[Array, Array, NDArray[np.bool_]] | None = None

    def at(self, head_m: float) -> tuple[float, float]:
        """Flow [L/h] and its slope [L/h per m] at a pressure head at the near end [m]."""
        h = head_m - self.threshold_m
        if h <= 0:
            return 0.0, 0.0
        root, a, b, c, d = self._cubics[self._piece(h)]
        s = math.sqrt(h)
        t = s - root
        return a + t * (b + t * (c + t * d)), (b + t * (2 * c + t * 3 * d)) / (2 * s)

    def along(self, head_m: "Array") -> "tuple[Array, Array]":
        """The same over an array of heads."""
        import numpy as np

        h = np.asarray(head_m - self.threshold_m)
        wet = h > 0
        if not wet.any():
            return np.zeros_like(h), np.zeros_like(h)
        safe = np.where(wet, h, float(h.max()))
        s = np.sqrt(safe)
        root, a, b, c, d = self._gathered(safe)
        t = s - root
        return np.where(wet, a + t * (b + t * (c + t * d)), 0.0), np.where(wet, b + t * (2 * c + t * 3 * d), 0.0) / (
            2 * s
        )

    def heads_along(self, head_m: "Array") -> "Array":
        """Pressure heads all along the way [m], for an array of heads at the near end: one row each."""
        import numpy as np

        h = np.maximum(np.asarray(head_m - self.threshold_m), FIRST_END**2)
        self._gathered(h)
        index = np.clip(np.searchsorted(self.heads, h, side="right") - 1, 0, len(self._points) - 2)
        near, wide = self.heads[index], np.diff(self.heads)[index]
        t = (h - near) / wide
        u = 1 - t
        shares = np.array([(1 + 2 * t) * u * u, t * t * (1 + 2 * u), wide * t * u * u, -wide * t * t * u])
        found: Array = np.empty((len(h), len(self._points[0].heads_m)))
        for i in np.unique(index).tolist():
            here, (a, b) = index == i, self._points[i : i + 2]
            most = 2 * np.subtract(b.heads_m, a.heads_m) / (b.head_m - a.head_m)  # as in _cubic
            slopes = np.minimum(a.head_slopes, most), np.minimum(b.head_slopes, most)
            found[here] = shares[:, here].T @ np.array([a.heads_m, b.heads_m, *slopes])
        return found

    def point(self, head_m: float) -> Point:
        """The exact point at a pressure head at the near end: everything along the way."""
        h = max(head_m - self.threshold_m, FIRST_END**2)
        i = self._piece(h)
        low, high = (self._points[i].end, self._points[i + 1].end) if i + 1 < len(self._points) else (0.0, math.sqrt(h))
        end = 0.5 * (low + high)
        for _ in range(60):
            found = self._march(end)
            low, high = (end, high) if found.head_m < h else (low, end)
            if abs(found.head_m - h) <= 1e-12 * h or high - low <= 1e-15 * high:
                break
            end = self._better(found, h, low, high)
        return found

    def _better(self, found: Point, h: float, low: float, high: float) -> float:
        """A better guess of the far end, inside its bracket (secant through nothing, else the middle)."""
        guess = found.end * math.sqrt(h / found.head_m) if found.head_m > 0 else low
        return guess if low < guess < high else 0.5 * (low + high)

    def _piece(self, h: float) -> int:
        """Which piece holds a head; made and checked when it is not there yet."""
        self.cover(h)
        i = bisect_right(self._heads, h) - 1
        while not self._checked[i]:
            self.check(i)
            i = bisect_right(self._heads, h) - 1
        return i

    def _gathered(self, h: "Array") -> "Array":
        """Coefficients of the pieces that hold each head, as five rows."""
        import numpy as np

        self.cover(float(h.min()))
        self.cover(float(h.max()))
        while True:
            index = np.searchsorted(self.heads, h, side="right") - 1
            unsure = np.unique(index[~self.checked[index]])
            if not len(unsure):
                return self.cubics[:, index]
            for i in reversed(unsure.tolist()):
                self.check(i)

    def cover(self, h: float) -> None:
        """March until the points reach on both sides of a head."""
        if not self._heads:
            self._begin(h)
        while h < self._heads[0]:
            index = math.ceil(self._points[0].end / self._step - 1e-9) - 1
            self._insert(0, self._march(index * self._step if index > 0 else FIRST_END))
            if index <= 0:
                self._foot()
                return
        while h >= self._heads[-1]:
            index = math.floor(self._points[-1].end / self._step + 1e-9) + 1
            self._insert(len(self._heads), self._march(index * self._step))

    @property
    def pieces(self) -> int:
        """How many points the curve has by now; the last begins no piece."""
        return len(self._heads)

    @property
    def heads(self) -> "Array":
        """Heads of the points, above the threshold [m]."""
        return self._as_arrays()[0]

    @property
    def cubics(self) -> "Array":
        """√head at the start of each piece and its four coefficients, as five rows."""
        return self._as_arrays()[1]

    @property
    def checked(self) -> "NDArray[np.bool_]":
        """Which pieces have been checked."""
        return self._as_arrays()[2]

    def _as_arrays(self) -> "tuple[Array, Array, NDArray[np.bool_]]":
        """The points as arrays, kept until a point is added."""
        import numpy as np

        if self._arrays is None:
            self._arrays = np.array(self._heads), np.array(self._cubics).T, np.array(self._checked)
        return self._arrays

    def _begin(self, h: float) -> None:
        """The first point, on the grid just below the head."""
        s = math.sqrt(h)
        index = max(1, math.floor(s / self._step))
        first = self._march(index * self._step)
        near = max(1, math.floor(s / math.sqrt(first.head_m) * index))
        self._insert(0, first if near == index else self._march(near * self._step))

    def _foot(self) -> None:
        """The piece below the lowest point: a straight line in √h from no flow at no head."""
        first = self._points[0]
        if first.head_m > 0:
            root = math.sqrt(first.head_m)
            self._insert(0, Point(0.0, 0.0, 0.0, 0.0, (0.0,) * len(first.heads_m), (0.0,) * len(first.heads_m)))
            self._cubics[0] = (0.0, 0.0, first.flow_l_h / root, 0.0, 0.0)
            self._checked[0] = True
            self._arrays = None

    def _insert(self, i: int, point: Point) -> None:
        """A new point at place i, with the pieces on both sides of it."""
        self._arrays = None
        self._heads.insert(i, point.head_m)
        self._points.insert(i, point)
        self._cubics.insert(i, (0.0, 0.0, 0.0, 0.0, 0.0))
        self._checked.insert(i, False)
        for j in (i - 1, i):
            if 0 <= j < len(self._points) - 1 and self._heads[j] > 0:
                self._cubics[j] = _cubic(self._points[j], self._points[j + 1])
                self._checked[j] = False

    def check(self, i: int) -> None:
        """March the middle of a piece; keep it as a point, and call both halves good if the piece was nearly right."""
        near, far = self._points[i], self._points[i + 1]
        middle = self._march(0.5 * (near.end + far.end))
        root, a, b, c, d = self._cubics[i]
        t = math.sqrt(middle.head_m) - root
        error = abs(a + t * (b + t * (c + t * d)) - middle.flow_l_h)
        good = error <= CHECK * middle.flow_l_h or far.head_m - near.head_m < NARROWEST_M
        self._insert(i + 1, middle)
        self._checked[i] = self._checked[i + 1] = good
        self._arrays = None


def _cubic(near: Point, far: Point) -> tuple[float, float, float, float, float]:
    """The cubic in √head that meets two points in value and slope, and never falls between them.

    Where friction jumps (a law that turns turbulent at once) the flow stays while the head rises; slopes above twice
    the rise could then swing the cubic down (below three times they cannot: Fritsch and Carlson 1980, from memory).
    """
    s0, s1 = math.sqrt(near.head_m), math.sqrt(far.head_m)
    w = s1 - s0
    rise = (far.flow_l_h - near.flow_l_h) / w
    m0, m1 = min(2 * s0 * near.slope, 2 * rise), min(2 * s1 * far.slope, 2 * rise)
    return s0, near.flow_l_h, m0, (3 * rise - 2 * m0 - m1) / w, (m0 + m1 - 2 * rise) / (w * w)
