"""The hand calculations of docs/evidence.md: for each example one container and its zone, beside the program."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.docs.pencil import Line, Piece, emitter_flows_l_h, frustum_l, grown, ninth_tenth_mm, squares_m2

import brimful
from brimful.design.model import NetworkWorked, ZoneWorked
from brimful.services import Answer, example, work_out

FILES = Path(brimful.__file__).parent / "examples"
OPENING = """\
One container of each example and its zone, by plain arithmetic (`tests/docs/pencil.py`, which uses nothing of Brimful's
own sums). Given: outside sizes, wall, base, spreads and ratings from the plan and the catalogue; tube lengths, bores,
fittings and heights as the network lists them; the mix ends 38 mm under the rim. Friction by hand: 64/Re, Blasius from
Re 2000 on. Leaching 10 %; the spread of emitters as made: 1 − 1.27·Cv/√n.
"""
HEADSPACE_M, LEACHING, PSI_M = 0.038, 0.10, 0.70307


@dataclass(frozen=True, slots=True)
class Case:
    """What one writes on top of the sheet: sizes outside, wall and base, plants, factors, emitters as rated.

    Emitters: flow [L/h], head [m], exponent; None where the program chose them: then k, x and regulator are its own.
    """

    plan: str
    row: str
    top_m: float
    bottom_m: float
    height_m: float
    wall_m: float
    base_m: float
    plants: tuple[tuple[int, str, float], ...]
    plant_factor: float
    place_factor: float
    rated: tuple[float, float, float] | None
    variation: float
    regulator_m: float | None
    et0: str


CASES = (
    Case("alder_point_landing", "water side", 0.762, 0.6096, 0.6096, 0.0127, 0.019,
         ((1, "upright", 0.90), (4, "upright", 0.45), (3, "upright", 0.30), (5, "trailing", 0.60)),
         0.8, 1.3, (2.4605, 25 * PSI_M, 0.5), 0.07, 25 * PSI_M, "the program's own, since it is a sum of 1,461 days"),
    Case("balcony", "rail", 0.40, 0.30, 0.38, 0.0222, 0.0254,
         ((1, "upright", 0.30), (2, "upright", 0.45), (2, "trailing", 0.60)),
         0.8, 1.75, None, 0.05, None, "the program's own, of 30 years made from the plan's monthly normals"),
    Case("courthouse_square", "steps", 0.7874, 0.6604, 0.635, 0.0444, 0.0508,
         ((1, "upright", 0.60), (4, "mounding", 0.90), (3, "mounding", 0.46), (4, "trailing", 1.80)),
         0.8, 1.75, (1.8927, 20 * PSI_M, 0.03), 0.05, 30 * PSI_M, "nine tenths of the network's published days"),
)  # fmt: skip


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
    circles = grown(list(case.plants), mouth)
    canopy = squares_m2(circles)
    peak = next(d for d in row.demands if d.occasion == "peak")
    et0_program = next(o for o in answer.design.site.occasions if o.occasion == "peak").et0_mm_day
    et0 = _et0(case, et0_program)
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
        Step(f"ground under {len(circles)} plants full grown, squares of 1 cm counted", canopy, peak.canopy_area_m2,
             "m²", 0.01),
        Step(f"ET0 of the hottest days: {case.et0}", et0, et0_program, "mm/day", 0.02),
        Step(f"wants at the peak: {et0:.2f} mm × {case.plant_factor:g} × {case.place_factor:g} × {canopy:.3f} m²",
             demand, peak.demand_l_day, "L/day", 0.03),
        Step(f"flow of a mean container: {k}, {lines[case.row].emitters} emitters, {flows[mine]:.3f} L/h each",
             flow, sum(own) / len(own), "L/h", 0.02),
        Step("flow of the zone: each row's containers × emitters × q", total, zone.flow_l_h, "L/h", 0.02),
        Step(f"minutes a day: 60 × {demand:.2f} / {1 - LEACHING:.2f} / {share:.3f} / {flow:.2f}",
             60 * gross / flow, worked, "min", 0.05),
    )  # fmt: skip


def _et0(case: Case, program: float) -> float:
    if case.plan == "courthouse_square":
        return ninth_tenth_mm(FILES / "fallon_2015.csv", "ETOS", (5, 20), (10, 15))
    return program


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
