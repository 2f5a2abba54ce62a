"""Plain arithmetic for the hand calculations: nothing of Brimful's own sums is used here."""

import csv
import math
import statistics
from dataclasses import dataclass
from pathlib import Path

GRAVITY, VISCOSITY = 9.80665, 1.0034e-6  # m/s²; m²/s of water at 20 °C (IAPWS 2008)
SQUARE_M = 0.01  # squared paper


def frustum_l(mouth_m: float, foot_m: float, height_m: float) -> float:
    """V = π·h/12 · (D² + D·d + d²), in litres."""
    return 1000 * math.pi * height_m / 12 * (mouth_m**2 + mouth_m * foot_m + foot_m**2)


def squares_m2(circles: list[tuple[float, float, float]]) -> float:
    """Ground under the circles, by counting squares of 1 cm."""
    reach = max(math.hypot(x, y) + r for x, y, r in circles)
    steps = range(-math.ceil(reach / SQUARE_M), math.ceil(reach / SQUARE_M))
    count = sum(
        any(((i + 0.5) * SQUARE_M - x) ** 2 + ((j + 0.5) * SQUARE_M - y) ** 2 <= r * r for x, y, r in circles)
        for i in steps
        for j in steps
    )
    return count * SQUARE_M**2


def grown(plants: list[tuple[int, str, float]], mouth_m: float) -> list[tuple[float, float, float]]:
    """Circles of full-grown plants (count, habit, greatest spread): on rings, cut back 0.30 m beyond the rim."""
    radius, ring_of = mouth_m / 2, {"upright": 0.0, "mounding": 0.5, "trailing": 0.85}
    each = [(ring_of[habit], spread) for count, habit, spread in plants for _ in range(count)]
    circles, seen = [], dict.fromkeys(ring_of.values(), 0)
    for ring, spread in each:
        total = sum(one == ring for one, _ in each)
        away = radius * (0.25 if ring == 0 and total > 1 else ring)
        turn = 2 * math.pi * seen[ring] / total
        seen[ring] += 1
        circles.append((away * math.cos(turn), away * math.sin(turn), min(spread / 2, radius + 0.30 - away)))
    return circles


def ninth_tenth_mm(file: Path, column: str, first: tuple[int, int], last: tuple[int, int]) -> float:
    """What one day in ten of the season exceeds, from a published column in inches."""
    with file.open(encoding="utf-8-sig") as text:
        rows = list(csv.DictReader(text))
    season = [r for r in rows if first <= (int(r["MONTH"]), int(r["DAY"])) <= last]
    return 25.4 * statistics.quantiles([float(r[column]) for r in season], n=10, method="inclusive")[8]


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of tube: length and bore [m], and K of its fittings."""

    length_m: float
    bore_m: float
    loss_k: float

    def lost_m(self, flow_l_h: float) -> float:
        """h = (f·L/D + K)·v²/2g; f = 64/Re, from Re 2000 on Blasius."""
        if flow_l_h <= 0:
            return 0.0
        speed = flow_l_h / 3.6e6 / (math.pi / 4 * self.bore_m**2)
        re = speed * self.bore_m / VISCOSITY
        f = 64 / re if re < 2000 else 0.3164 / re**0.25
        return (f * self.length_m / self.bore_m + self.loss_k) * speed**2 / (2 * GRAVITY)


@dataclass(frozen=True, slots=True)
class Line:
    """One row of containers: lateral pieces from the main on, one feeder, dripline pieces, k and x of its emitters."""

    lateral: tuple[Piece, ...]
    feeder: Piece
    dripline: tuple[Piece, ...]
    emitters: int
    k: float
    x: float
    rise_m: float


def mean_lost_m(pieces: tuple[Piece, ...], each_l_h: float) -> float:
    """Mean loss to the taps along a tube, one at the end of each piece, each drawing the same."""
    lost, sum_lost, left = 0.0, 0.0, len(pieces)
    for piece in pieces:
        lost += piece.lost_m(left * each_l_h)
        sum_lost += lost
        left -= 1
    return sum_lost / len(pieces) if pieces else 0.0


def emitter_flows_l_h(head_m: float, main: Piece, lines: list[Line]) -> list[float]:
    """Flow of the mean emitter of each line: guess, take the losses off the head, q = k·hˣ, and again 40 times."""
    flows = [line.k * head_m**line.x for line in lines]
    for _ in range(40):
        total = sum(q * line.emitters * len(line.lateral) for q, line in zip(flows, lines, strict=True))
        left = [
            head_m
            - main.lost_m(total)
            - mean_lost_m(line.lateral, q * line.emitters)
            - line.rise_m
            - line.feeder.lost_m(q * line.emitters)
            - mean_lost_m(line.dripline, q)
            for q, line in zip(flows, lines, strict=True)
        ]
        flows = [(q + line.k * h**line.x) / 2 for q, h, line in zip(flows, left, lines, strict=True)]
    return flows
