"""What stands between the lateral and the mix of one container: a feeder, then dripline or single emitters.

Containers built alike share one curve of inflow against head. It is marched up from the last emitter: choose the head
there, and every flow and head upstream follows without iteration.
"""

from functools import lru_cache

from brimful.domains.hydraulics.curve import Point, ResponseCurve
from brimful.domains.hydraulics.emitters import EmitterLaw
from brimful.domains.hydraulics.pipe import Pipe, Water
from brimful.records import record


@record
class Tube:
    """A kind of tube."""

    inner_diameter_m: float
    roughness_m: float = 1.5e-6
    name: str = ""

    def __post_init__(self) -> None:
        if not (self.inner_diameter_m > 0 and self.roughness_m >= 0):
            raise ValueError(f"bore {self.inner_diameter_m} m was given; expected more than 0")

    def pipe(self, length_m: float, loss_k: float, water: Water) -> Pipe:
        """A length of this tube, ready for sums."""
        return Pipe.of(length_m, self.inner_diameter_m, roughness_m=self.roughness_m, loss_k=loss_k, water=water)


@record
class Feeder:
    """The thin tube from the lateral into the container."""

    tube: Tube
    length_m: float
    loss_k: float = 0.0  # barbs and tees, on the feeder's own velocity

    def __post_init__(self) -> None:
        if not (self.length_m > 0 and self.loss_k >= 0):
            raise ValueError(f"feeder length {self.length_m} m, K {self.loss_k} were given; expected a length above 0")

    def pipe(self, water: Water) -> Pipe:
        """The feeder, ready for sums."""
        return self.tube.pipe(self.length_m, self.loss_k, water)


@record
class Dripline:
    """Tube with emitters in it at even steps, open (plugged at its end) or closed to a ring at the feeder's tee."""

    tube: Tube
    spacing_m: float
    count: int  # emitters on each line
    law: EmitterLaw
    closed: bool = False
    lines: int = 1  # so many of them side by side
    loss_k: float = 0.0  # of each emitter's body in the bore, on the line's velocity

    def __post_init__(self) -> None:
        if not (self.spacing_m > 0 and self.count >= 1 and self.lines >= 1 and self.loss_k >= 0):
            raise ValueError(
                f"{self.lines} driplines of {self.count} emitters at {self.spacing_m} m were given; expected 1 or more"
            )

    @property
    def first_m(self) -> float:
        """Distance of the first emitter from the tee: a whole step, or half a step in a ring (which is then even)."""
        return 0.5 * self.spacing_m if self.closed else self.spacing_m

    @property
    def emitters(self) -> int:
        """How many emitters altogether."""
        return self.count * self.lines


@record
class SingleEmitters:
    """Single emitters on the feeder's end."""

    law: EmitterLaw
    count: int

    def __post_init__(self) -> None:
        if self.count < 1:
            raise ValueError(f"{self.count} emitters were given; expected at least 1")

    @property
    def emitters(self) -> int:
        """How many emitters altogether."""
        return self.count


@record
class Assembly:
    """All of it: feeder (none where emitters sit on the lateral itself), rise from lateral to emitters, and
    emitters."""

    feeder: Feeder | None
    body: Dripline | SingleEmitters
    rise_m: float = 0.0

    @property
    def emitters(self) -> int:
        """How many emitters the container has."""
        return self.body.emitters


@record
class Arm:
    """One way from the tee to a dead end: pipes nearest the tee first, and the share of an emitter at each pipe's
    end."""

    pipes: tuple[Pipe, ...]
    counts: tuple[float, ...]
    copies: int


def arm_of(line: Dripline, water: Water) -> Arm:
    """A dripline as one arm taken so many times; a ring falls into two equal arms at the point opposite its tee."""
    first, plain = (line.tube.pipe(length, line.loss_k, water) for length in (line.first_m, line.spacing_m))
    if not line.closed:
        return Arm((first, *(plain,) * (line.count - 1)), (1.0,) * line.count, line.lines)
    half = (line.count + 1) // 2
    far = 0.5 if line.count % 2 else 1.0
    return Arm((first, *(plain,) * (half - 1)), (*(1.0,) * (half - 1), far), 2 * line.lines)


@lru_cache(maxsize=1024)
def inflow_curve(assembly: Assembly, water: Water) -> ResponseCurve:
    """Inflow of one container in L/h against the pressure head in m where its feeder leaves the lateral.

    Formula: marched up from the last emitter: h(i-1) = h(i) + hf(Q), Q = Σ q(h) beyond; √h-cubic between exact points.

    Args:
        assembly: how the container is fed; water: its viscosity, and the law of friction
    Returns: the curve, an emitter law by itself
    Valid: emitters of one container at one level
    Source: own derivation; equal to the full solution within 1e-7 of the flow
    """
    feeder, body = assembly.feeder, assembly.body
    pipe = None if feeder is None else feeder.pipe(water)
    arm = Arm((), (), 1) if isinstance(body, SingleEmitters) else arm_of(body, water)

    def march(end: float) -> Point:
        return _march(end, body, arm, pipe)

    return ResponseCurve(march, threshold_m=assembly.rise_m)


def _march(end: float, body: Dripline | SingleEmitters, arm: Arm, feeder: Pipe | None) -> Point:
    """From the head at the last emitter to the head and flow at the lateral; slopes are against `end` on the way."""
    h, dh = end * end, 2.0 * end
    heads, slopes = [h], [dh]
    at = body.law.at
    if not arm.pipes:
        q, slope = at(h)
        flow, dflow = q * body.count, slope * dh * body.count
    else:
        flow = dflow = 0.0
        for pipe, count in zip(reversed(arm.pipes), reversed(arm.counts), strict=True):
            q, slope = at(h)
            flow += q * count
            dflow += slope * dh * count
            lost, rate = pipe.loss(flow)
            h += lost
            dh += rate * dflow
            heads.append(h)
            slopes.append(dh)
        flow *= arm.copies
        dflow *= arm.copies
    if feeder is not None:
        lost, rate = feeder.loss(flow)
        h += lost
        dh += rate * dflow
    return Point(end, h, flow, dflow / dh, tuple(heads), tuple([slope / dh for slope in slopes]))


def emitter_heads(assembly: Assembly, point: Point) -> tuple[float, ...]:
    """Pressure heads [m] at the emitters, from the march: of one arm, farthest first; of single emitters, the one
    head."""
    return point.heads_m if isinstance(assembly.body, SingleEmitters) else point.heads_m[:-1]


def emitter_flows(assembly: Assembly, point: Point) -> tuple[tuple[float, float], ...]:
    """(flow of one emitter [L/h], how many such) over a container, the farthest from the tee first."""
    body = assembly.body
    if isinstance(body, SingleEmitters):
        return ((body.law.at(point.heads_m[0])[0], float(body.count)),)
    flows = [body.law.at(h)[0] for h in point.heads_m[:-1]]
    copies = 2 * body.lines if body.closed else body.lines
    far = 0.5 if body.closed and body.count % 2 else 1.0
    return tuple((q, copies * (far if i == 0 else 1.0)) for i, q in enumerate(flows))
