"""Colours as numbers: CIELAB from sRGB, and how far apart two colours look (CIEDE2000)."""

import math

Lab = tuple[float, float, float]
"""Lightness L*, green–red a*, blue–yellow b*, for daylight D65 and the 2° observer."""
Rgb = tuple[float, float, float]
"""Red, green, blue of sRGB, 0–1."""

TO_XYZ = ((0.4124564, 0.3575761, 0.1804375), (0.2126729, 0.7151522, 0.0721750), (0.0193339, 0.1191920, 0.9503041))
"""sRGB to XYZ, IEC 61966-2-1 with D65 (memory; checked by the primaries in CIELAB)."""
WHITE = (0.95047, 1.0, 1.08883)
"""XYZ of D65 white (memory)."""
EDGE, SLOPE = 216.0 / 24389.0, 24389.0 / 27.0
"""Where the cube root of CIELAB turns straight, CIE 15 (memory)."""
POW_25_7 = 25.0**7
HALF_TURN_SLACK_DEG = 1e-9
"""Hue differences of exactly 180° come out a rounding more or less: within this they count as 180 (see pair 14)."""


def rgb_of_hex(text: str) -> Rgb:
    """Red, green, blue 0–1 from a web colour such as "#DA2418".

    >>> rgb_of_hex("#FF0000")
    (1.0, 0.0, 0.0)
    """
    digits = text.removeprefix("#")
    if len(digits) != 6 or any(c not in "0123456789abcdefABCDEF" for c in digits):
        raise ValueError(f'"{text}" was given: expected a colour such as "#DA2418"')
    red, green, blue = (int(digits[i : i + 2], 16) / 255.0 for i in (0, 2, 4))
    return red, green, blue


def linear_rgb(rgb: Rgb) -> Rgb:
    """Light behind the sRGB values, 0–1 (IEC 61966-2-1)."""
    r, g, b = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in rgb)
    return r, g, b


def lab_of_linear(rgb: Rgb) -> Lab:
    """CIELAB of linear red, green, blue (CIE 15).

    Formula: L* = 116 f(Y) − 16; a* = 500 (f(X) − f(Y)); b* = 200 (f(Y) − f(Z)); f a cube root, straight near black.
    """
    xyz = (math.fsum(m * v for m, v in zip(row, rgb, strict=True)) for row in TO_XYZ)
    x, y, z = (_root(v / white) for v, white in zip(xyz, WHITE, strict=True))
    return 116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)


def lab_of_hex(text: str) -> Lab:
    """CIELAB of a web colour: L* 0 black to 100 white, a* green to red, b* blue to yellow (IEC 61966-2-1, CIE 15).

    Formula: sRGB → light → XYZ (D65) → CIELAB.

    Args:
        text: six hex digits, with # or without
    Returns: (L*, a*, b*)
    Valid: colours of sRGB
    Source: IEC 61966-2-1 and CIE 15 (memory); primaries as in two open code bases (read)

    >>> tuple(round(v, 2) for v in lab_of_hex("#FF0000"))
    (53.24, 80.09, 67.2)
    """
    return lab_of_linear(linear_rgb(rgb_of_hex(text)))


def chroma(lab: Lab) -> float:
    """Chroma C*: 0 grey, above 60 vivid."""
    return math.hypot(lab[1], lab[2])


def hue_deg(lab: Lab) -> float:
    """Hue angle 0–360 [°]: about 30 red, 90 yellow, 140 green, 290 blue; 0 for grey."""
    return math.degrees(math.atan2(lab[2], lab[1])) % 360.0


def difference(one: Lab, other: Lab) -> float:
    """How far apart two colours look, ΔE00: under 3 one batch, under 10 one colour, over 40 contrast (CIEDE2000).

    Formula: √[(ΔL'/S_L)² + (ΔC'/S_C)² + (ΔH'/S_H)² + R_T (ΔC'/S_C)(ΔH'/S_H)].

    Args:
        one, other: (L*, a*, b*)
    Returns: ΔE00 [1]
    Valid: small differences are what it was fitted to; large ones only rank
    Source: Sharma, Wu & Dalal 2005, Color Res. Appl. 30:21–30 (test data read); limits: common practice, no source

    >>> round(difference((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485)), 4)
    2.0425
    """
    stretch = 1.0 + 0.5 * (1.0 - _saturation((chroma(one) + chroma(other)) / 2.0))
    l1, c1, h1 = _stretched(one, stretch)
    l2, c2, h2 = _stretched(other, stretch)
    turn, mean_hue = _hues(h1, h2, grey=c1 * c2 == 0.0)
    mean_c, light = (c1 + c2) / 2.0, ((l1 + l2) / 2.0 - 50.0) ** 2
    delta_l = (l2 - l1) / (1.0 + 0.015 * light / math.sqrt(20.0 + light))
    delta_c = (c2 - c1) / (1.0 + 0.045 * mean_c)
    delta_h = 2.0 * math.sqrt(c1 * c2) * _sin(turn / 2.0) / (1.0 + 0.015 * mean_c * _hue_weight(mean_hue))
    blue = 60.0 * math.exp(-(((mean_hue - 275.0) / 25.0) ** 2))
    rotation = -2.0 * _saturation(mean_c) * _sin(blue)
    return math.sqrt(max(0.0, delta_l**2 + delta_c**2 + delta_h**2 + rotation * delta_c * delta_h))


def _root(v: float) -> float:
    return math.cbrt(v) if v > EDGE else (SLOPE * v + 16.0) / 116.0


def _saturation(c: float) -> float:
    return math.sqrt(c**7 / (c**7 + POW_25_7))


def _stretched(lab: Lab, factor: float) -> Lab:
    red = factor * lab[1]
    return lab[0], math.hypot(red, lab[2]), math.degrees(math.atan2(lab[2], red)) % 360.0


def _hues(h1: float, h2: float, *, grey: bool) -> tuple[float, float]:
    """Signed step from hue to hue and the hue half way [°]; a grey has none, so the other's counts whole."""
    if grey:
        return 0.0, h1 + h2
    turn, middle = h2 - h1, (h1 + h2) / 2.0
    if abs(turn) <= 180.0 + HALF_TURN_SLACK_DEG:
        return turn, middle
    return turn - math.copysign(360.0, turn), middle + (180.0 if middle < 180.0 else -180.0)


def _hue_weight(hue: float) -> float:
    return (
        1.0
        - 0.17 * _sin(hue + 60.0)
        + 0.24 * _sin(2.0 * hue + 90.0)
        + 0.32 * _sin(3.0 * hue + 96.0)
        - 0.20 * _sin(4.0 * hue + 27.0)
    )


def _sin(degrees: float) -> float:
    return math.sin(math.radians(degrees))
