"""Plain arithmetic for the hand calculations: nothing of Brimful's own sums is used here."""

import csv
import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
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


@dataclass(frozen=True, slots=True)
class Grower:
    """What the plant table says of one taxon: least and greatest width, spacing [m], weeks to fill; base [°C]."""

    least_m: float
    most_m: float
    spacing_m: float
    weeks: float
    base_c: float


def half_width_m(plant: Grower, ball_m: float, means_c: list[float]) -> float:
    """Half the width after these days: logistic, k from what fills nine tenths of the spacing in W weeks of 20 °C."""
    width = (plant.least_m + plant.most_m) / 2
    first = (1.5 * ball_m / width) ** 2
    full = 0.9 * min(1.0, plant.spacing_m**2 / (math.pi * width**2 / 4))
    full = full if full > first else 0.9
    rate = (math.log(full / (1 - full)) - math.log(first / (1 - first))) / (7 * plant.weeks * (20 - plant.base_c))
    warmth = sum(max(0.0, min(mean, 26.0) - plant.base_c) for mean in means_c)
    share = 1 / (1 + (1 / first - 1) * math.exp(-rate * warmth))
    return math.sqrt(share) * width / 2


def on_ring(order: str, away_m: float, *, half_step: bool = False) -> list[tuple[str, float, float]]:
    """Plants evenly on a ring, counted from the front to the right, the first at the front or half a step on."""
    turns = [2 * math.pi * (i + 0.5 * half_step) / len(order) for i in range(len(order))]
    return [
        (letter, away_m * math.sin(turn), -away_m * math.cos(turn)) for letter, turn in zip(order, turns, strict=True)
    ]


def day_means_c(file: Path, *, first: tuple[int, int], days: int) -> list[float]:
    """Mean temperature of each calendar day from the first on, over the years of a file of highs and lows."""
    found: dict[tuple[int, int], list[float]] = {}
    with file.open(encoding="utf-8-sig") as text:
        for row in csv.DictReader(text):
            if "date" in row:
                day, mean = row["date"].split("/")[1:], (float(row["temp_max"]) + float(row["temp_min"])) / 2
            else:
                day, mean = [row["MONTH"], row["DAY"]], ((float(row["MX"]) + float(row["MN"])) / 2 - 32) / 1.8
            found.setdefault((int(day[0]), int(day[1])), []).append(mean)
    start = date(2001, *first)
    each = [start + timedelta(days=i) for i in range(days)]
    return [statistics.mean(found[one.month, one.day]) for one in each]


def month_means_c(highs: str, lows: str, *, first: tuple[int, int], days: int) -> list[float]:
    """Mean temperature of each day from the first on, from twelve monthly means of highs and lows."""
    means = [(float(a) + float(b)) / 2 for a, b in zip(highs.split(), lows.split(), strict=True)]
    return [means[(date(2001, *first) + timedelta(days=i)).month - 1] for i in range(days)]


def season_in(file: Path, column: str, first: tuple[int, int], last: tuple[int, int]) -> list[float]:
    """The days of the season in a published column of inches."""
    with file.open(encoding="utf-8-sig") as text:
        rows = list(csv.DictReader(text))
    return [float(r[column]) for r in rows if first <= (int(r["MONTH"]), int(r["DAY"])) <= last]


def ninth_tenth(values: Sequence[float]) -> float:
    """What one in ten exceeds."""
    return statistics.quantiles(values, n=10, method="inclusive")[8]


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
