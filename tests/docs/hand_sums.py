"""The hand calculations of docs/evidence.md: for each example one container and its zone, beside the program."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.docs.pencil import (
    Grower,
    Line,
    Piece,
    day_means_c,
    emitter_flows_l_h,
    frustum_l,
    half_width_m,
    month_means_c,
    ninth_tenth,
    on_ring,
    season_in,
    squares_m2,
)

import brimful
from brimful.design.model import NetworkWorked, OccasionClimate, ZoneWorked
from brimful.services import Answer, example, work_out

FILES = Path(brimful.__file__).parent / "examples"
OPENING = """\
One container of each example and its zone, by plain arithmetic (`tests/docs/pencil.py`, which uses nothing of Brimful's
own sums). Given: outside sizes, wall, base, ratings, and of the plants widths, spacings, weeks to fill, from plan and
catalogue; tube lengths, bores, fittings and heights as the network lists them; the mix ends 38 mm under the rim. Plants
stand in rings, drawn by hand: trailing ones half a pot and 1 cm within the wall, mounding ones half way, or further in
where the tube wants 2 cm; all on one ring where two find no room. They grow in the degree-days of the weather up to the
day by which nine in ten of the hottest days are past, and hang out 30 cm at most. Friction by hand: 64/Re, Blasius from
Re 2000 on. Leaching 10 %; the spread of emitters as made: 1 − 1.27·Cv/√n.
"""
HEADSPACE_M, LEACHING, PSI_M = 0.038, 0.10, 0.70307


BALL_M, REACH_M, TUBE_M = 0.083, 0.30, 0.02
"""A 4 in pot, square, by its side; how far plants may hang out; room for the tube."""
GROWERS = {
    "F": Grower(0.45, 0.90, 0.45, 7, 7.0),  # purple fountain grass
    "G": Grower(0.30, 0.45, 0.25, 6, 7.0),  # zonal geranium
    "A": Grower(0.10, 0.30, 0.20, 6, 9.5),  # angelonia
    "C": Grower(0.30, 0.60, 0.20, 5, 5.0),  # calibrachoa
    "M": Grower(0.35, 0.60, 0.40, 6, 7.0),  # ornamental millet
    "L": Grower(0.45, 0.90, 0.35, 6, 7.0),  # lantana
    "Z": Grower(0.30, 0.46, 0.25, 6, 7.0),  # zinnia
    "S": Grower(0.90, 1.80, 0.40, 5, 9.5),  # sweet potato vine
}
"""From the plant table; base temperatures by genus as the guide tells."""


@dataclass(frozen=True, slots=True)
class Case:
    """What one writes on top of the sheet: sizes outside, wall and base, plants, factors, emitters as rated.

    Plants: a letter each, in the centre, on the mounding ring, on the trailing ring, varieties taking turns; `first` is
    planting day. Emitters: flow [L/h], head [m], exponent; None where the program chose them: then k, x and regulator
    are its own.
    """

    plan: str
    row: str
    top_m: float
    bottom_m: float
    height_m: float
    wall_m: float
    base_m: float
    rings: tuple[str, str, str]
    first: tuple[int, int]
    plant_factor: float
    place_factor: float
    rated: tuple[float, float, float] | None
    variation: float
    regulator_m: float | None
    et0: str


CASES = (
    Case("alder_point_landing", "water side", 0.762, 0.6096, 0.6096, 0.0127, 0.019,
         ("F", "GAGAGAG", "CCCCC"), (5, 15),
         0.8, 1.3, (2.4605, 25 * PSI_M, 0.5), 0.07, 25 * PSI_M, "the program's own, since it is a sum of 1,461 days"),
    Case("balcony", "rail", 0.40, 0.30, 0.38, 0.0222, 0.0254,
         ("", "", "GCAGC"), (5, 15),
         0.8, 1.75, None, 0.05, None, "the program's own, of 30 years made from the plan's monthly normals"),
    Case("courthouse_square", "steps", 0.7874, 0.6604, 0.635, 0.0444, 0.0508,
         ("M", "LZLZLZL", "SSSS"), (5, 20),
         0.8, 1.75, (1.8927, 20 * PSI_M, 0.03), 0.05, 30 * PSI_M, "nine tenths of the network's published days"),
)  # fmt: skip
NORMALS = "4 6 11 16 21 24 26 26 21 15 9 5", "-1 0 3 7 11 15 16 16 12 8 3 0"
"""Of the balcony."""


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the sheet: words, our pencil's figure, the program's, its unit, how far apart they may be."""

    words: str
    pencil: float
    program: float
    unit: str
    tolerance: float


@cache
def answer_of(plan: str) -> Answer:
    """The program's answer."""
    return work_out(example(plan))


def steps(case: Case) -> tuple[Step, ...]:
    """The sheet of one example."""
    answer = answer_of(case.plan)
    assert answer.design is not None
    row = next(r for r in answer.design.rows if r.name == case.row)
    zone = next(z for z in answer.design.zones if z.name == row.zone)
    mouth, foot = case.top_m - 2 * case.wall_m, case.bottom_m - 2 * case.wall_m
    inside = case.height_m - case.base_m
    depth = inside - HEADSPACE_M
    line = foot + (mouth - foot) * depth / inside
    volume = frustum_l(line, foot, depth)
    peak = next(d for d in row.demands if d.occasion == "peak")
    occasion = next(o for o in answer.design.site.occasions if o.occasion == "peak")
    et0, days = _hot(case, occasion)
    circles = _circles(case, line / 2, days)
    canopy = squares_m2(circles)
    factor = min(case.plant_factor * case.place_factor, 2.5)
    demand = et0 * factor * canopy
    lines = _lines(case, zone)
    mine = list(lines).index(case.row)
    flows = emitter_flows_l_h(
        case.regulator_m or zone.head_after_regulator_m, _piece(zone.network, "main/1"), list(lines.values())
    )
    flow = flows[mine] * lines[case.row].emitters
    total = sum(q * line.emitters * len(line.lateral) for q, line in zip(flows, lines.values(), strict=True))
    share = 1 - 1.27 * case.variation / lines[case.row].emitters ** 0.5
    gross = demand / (1 - LEACHING) / share
    worked = answer.workings[f"zones/{zone.name}/peak/minutes_per_day {case.row}"].value
    assert isinstance(worked, float)
    own = [c.flow_l_h for c in zone.containers if c.row == case.row]
    k = f"q = k·hˣ, k {lines[case.row].k:.3f}, x {lines[case.row].x:g}"
    return (
        Step(f"room for mix: π × {depth:.4f} m / 12 × (D² + D·d + d²), D {line:.4f} m, d {foot:.4f} m",
             volume, row.fill_volume_l, "L", 0.002),
        Step(f"ground under {len(circles)} plants grown for {days} days, squares of 1 cm counted", canopy,
             peak.canopy_area_m2, "m²", 0.02),
        Step(f"ET0 of the hottest days: {case.et0}", et0, occasion.et0_mm_day, "mm/day", 0.02),
        Step(f"wants at the peak: {et0:.2f} mm × {case.plant_factor:g} × {case.place_factor:g} × {canopy:.3f} m²",
             demand, peak.demand_l_day, "L/day", 0.03),
        Step(f"flow of a mean container: {k}, {lines[case.row].emitters} emitters, {flows[mine]:.3f} L/h each",
             flow, sum(own) / len(own), "L/h", 0.02),
        Step("flow of the zone: each row's containers × emitters × q", total, zone.flow_l_h, "L/h", 0.02),
        Step(f"minutes a day: 60 × {demand:.2f} / {1 - LEACHING:.2f} / {share:.3f} / {flow:.2f}",
             60 * gross / flow, worked, "min", 0.05),
    )  # fmt: skip


def _hot(case: Case, program: OccasionClimate) -> tuple[float, int]:
    """ET0 of the hottest days [mm], and the day by which nine in ten of them are past, counted from planting day."""
    if case.plan != "courthouse_square":
        return program.et0_mm_day, program.days_grown_count
    inches = season_in(FILES / "fallon_2015.csv", "ETOS", (5, 20), (10, 15))
    hot = ninth_tenth(inches)
    return 25.4 * hot, int(ninth_tenth([i for i, value in enumerate(inches) if value >= hot]))


def _circles(case: Case, radius_m: float, days: int) -> list[tuple[float, float, float]]:
    """The plants on their rings, each as wide as it has grown, none hanging out too far."""
    centre, middle, edge = case.rings
    outer = BALL_M / 2 + 0.01
    inner = max(outer + BALL_M + TUBE_M, radius_m / 2)
    places = [(letter, 0.0, 0.0) for letter in centre]
    places += on_ring(middle, radius_m - inner, half_step=True) + on_ring(edge, radius_m - outer)
    if case.plan == "balcony":
        means = month_means_c(*NORMALS, first=case.first, days=days)
    else:
        file = {"alder_point_landing": "seattle_2012_2015.csv", "courthouse_square": "fallon_2015.csv"}[case.plan]
        means = day_means_c(FILES / file, first=case.first, days=days)
    half = {letter: half_width_m(GROWERS[letter], BALL_M, means) for letter, _, _ in places}
    return [(x, y, min(half[letter], radius_m - math.hypot(x, y) + REACH_M)) for letter, x, y in places]


def _piece(network: NetworkWorked, name: str) -> Piece:
    link = next(k for k in network.links if k.id == name)
    return Piece(link.length_m, link.inner_diameter_m, link.loss_k)


def _lines(case: Case, zone: ZoneWorked) -> dict[str, Line]:
    """The tube of each row of the zone, as the network lists it: lengths, bores, fittings, heights are given."""
    network, lines = zone.network, {}
    height = {node.id: node.elevation_m for node in network.nodes}
    for row in dict.fromkeys(c.row for c in zone.containers):
        mine = [e for e in network.emitters if e.container.removesuffix(" 1") == row]
        count = sum(c.row == row for c in zone.containers)
        lateral = tuple(_piece(network, f"{row}/{i + 1}") for i in range(count))
        drip = tuple(_piece(network, k.id) for k in network.links if k.id.startswith(f"{row}/1/dripline/"))
        rises = [height[e.node] for e in network.emitters if e.node.startswith(f"{row}/")]
        k, x = mine[0].coefficient_l_h, mine[0].exponent
        if case.rated:
            k, x = case.rated[0] / case.rated[1] ** case.rated[2], case.rated[2]
        feeder = _piece(network, f"{row}/1/feeder")
        lines[row] = Line(lateral, feeder, drip, sum(e.count for e in mine), k, x, sum(rises) / len(rises))
    return lines


def page() -> Iterator[str]:
    """The section of the page."""
    yield "## Hand calculations"
    yield ""
    yield from OPENING.splitlines()
    yield ""
    for case in CASES:
        yield f"### {case.plan}, {case.row}"
        yield ""
        yield "| step | by hand | program | differ | may differ |"
        yield "|---|---|---|---|---|"
        for step in steps(case):
            off = 100 * (step.pencil / step.program - 1)
            yield (
                f"| {step.words} | {step.pencil:.4g} {step.unit} | {step.program:.4g} {step.unit} | {off:+z.1f} % "
                f"| {100 * step.tolerance:g} % |"
            )
        yield ""
