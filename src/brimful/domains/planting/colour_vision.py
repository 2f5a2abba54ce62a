"""Whether two colours stay apart for people who see colours otherwise."""

import math
from collections.abc import Mapping

from brimful.domains.planting.colour import Lab, Rgb, difference, lab_of_linear, linear_rgb, rgb_of_hex
from brimful.records import record

LEAST_DIFFERENCE = 20.0
LEAST_LIGHTNESS_STEP = 25.0
"""Neighbouring layers stay apart above either (our own rule, no source)."""
Matrix = tuple[tuple[float, float, float], tuple[float, float, float], tuple[float, float, float]]
VISIONS: Mapping[str, Matrix] = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
"""Full severity, on linear RGB: Machado, Oliveira & Fernandes 2009 (as carried by an open colour library, read)."""


@record
class Seen:
    """How far apart two colours look, ΔE00, by vision; `apart` if they stay so for all; `lightness_step` in L*."""

    by_vision: Mapping[str, float]
    lightness_step: float
    apart: bool

    @property
    def least(self) -> float:
        """The smallest difference over all visions, ΔE00."""
        return min(self.by_vision.values())


def seen_lab(colour: str, vision: str) -> Lab:
    """CIELAB of a web colour as seen with "normal", "protan", "deutan" or "tritan" vision (Machado et al. 2009)."""
    rgb = linear_rgb(rgb_of_hex(colour))
    if vision == "normal":
        return lab_of_linear(rgb)
    if vision not in VISIONS:
        raise ValueError(f'vision "{vision}" was given: expected normal, {", ".join(VISIONS)}')
    r, g, b = (min(1.0, max(0.0, math.fsum(m * v for m, v in zip(row, rgb, strict=True)))) for row in VISIONS[vision])
    return lab_of_linear((r, g, b))


def seen_apart(one: str, other: str) -> Seen:
    """How far two colours stay apart for every kind of colour vision, ΔE00 (Machado et al. 2009; CIEDE2000).

    Args:
        one, other: web colours
    Returns: a Seen: `apart` at ΔE00 of 20 or more in every vision, or lightness 25 apart
    Valid: full red-green or blue-yellow deficiency; weaker forms see more
    Source: Machado, Oliveira & Fernandes 2009 (matrices read); limits: our own rule, no source

    >>> seen_apart("#F5D50A", "#4B47B5").apart, seen_apart("#BE1421", "#A5592B").apart
    (True, False)
    """
    pairs = {v: (seen_lab(one, v), seen_lab(other, v)) for v in ("normal", *VISIONS)}
    by_vision = {v: difference(a, b) for v, (a, b) in pairs.items()}
    step = abs(pairs["normal"][0][0] - pairs["normal"][1][0])
    apart = min(by_vision.values()) >= LEAST_DIFFERENCE or step >= LEAST_LIGHTNESS_STEP
    return Seen(by_vision, step, apart)


def luminance_contrast(one: str, other: str) -> float:
    """Contrast of two colours by luminance alone, 1 to 21 (WCAG; from memory).

    >>> round(luminance_contrast("#FFFFFF", "#000000"), 6)
    21.0
    """
    dark, light = sorted(_luminance(linear_rgb(rgb_of_hex(c))) for c in (one, other))
    return (light + 0.05) / (dark + 0.05)


def _luminance(rgb: Rgb) -> float:
    return 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2]
