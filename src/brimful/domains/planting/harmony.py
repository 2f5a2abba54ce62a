"""Palettes as numbers beside the swatches: harmony of pairs, warm and cool, hue templates. Never a verdict."""

import math
from collections.abc import Mapping, Sequence
from itertools import combinations

from brimful.domains.planting.colour import Lab, chroma, hue_deg

TEMPLATES: Mapping[str, tuple[tuple[float, float], ...]] = {
    "i": ((0.0, 18.0),),
    "V": ((0.0, 93.6),),
    "L": ((0.0, 18.0), (90.0, 79.2)),
    "I": ((0.0, 18.0), (180.0, 18.0)),
    "T": ((0.0, 180.0),),
    "Y": ((0.0, 93.6), (180.0, 18.0)),
    "X": ((0.0, 93.6), (180.0, 93.6)),
}
"""Sectors (centre, width) [°], any rotation (Matsuda, in Cohen-Or et al. 2006, ACM TOG 25(3); open code bases, read).
Meant for an HSV wheel; here on the CIELAB hue, which is a change."""
GARDEN_WORDS = {"single": "i", "related": "V", "complementary": "I", "split": "Y", "warm or cool only": "T"}
"""Common practice, no source."""


def harmony(one: Lab, other: Lab) -> float:
    """How well two colours go together in lookers' eyes, about −1.2 to +1.4, higher is calmer (Ou & Luo 2006).

    Formula: C_H = H_C + H_L + H_H (chroma and hue difference, lightness, the hues themselves).

    Args:
        one, other: (L*, a*, b*)
    Returns: C_H [1]
    Valid: flat patches on mid grey. It likes light, like and blue pairs and marks vivid contrasts low, which
        gardeners plant on purpose
    Source: Ou & Luo 2006, Color Res. Appl. 31(3):191–204 (three public transcriptions that agree, read)

    >>> round(harmony((100.0, 0.0, 0.0), (0.0, 0.0, 0.0)), 2)
    0.55
    """
    return math.fsum(harmony_parts(one, other))


def harmony_parts(one: Lab, other: Lab) -> tuple[float, float, float]:
    """The three parts of harmony: chroma and hue difference H_C, lightness H_L, hues H_H (Ou & Luo 2006)."""
    total, apart = one[0] + other[0], abs(one[0] - other[0])
    lightness = 0.28 + 0.54 * math.tanh(-3.88 + 0.029 * total) + 0.14 + 0.15 * math.tanh(-2.0 + 0.2 * apart)
    return 0.04 + 0.53 * math.tanh(0.8 - 0.045 * _apart(one, other)), lightness, _hue_part(one) + _hue_part(other)


def palette_harmony(colours: Sequence[Lab], shares: Sequence[float] | None = None) -> float:
    """Mean harmony of all pairs of a palette, weighed by the area both fill (Ou & Luo 2006; averaging: memory).

    Args:
        colours: two or more (L*, a*, b*); shares: of the area [1], equal where omitted
    Returns: C_H [1]
    Valid: two colours at least; one colour has no pair
    Source: pairs Ou & Luo 2006 (read in transcriptions); mean of pairs from memory
    """
    if len(colours) < 2:
        raise ValueError(f"a palette of {len(colours)} colour was given: harmony needs two colours or more")
    weights = shares if shares is not None else [1.0] * len(colours)
    pairs = list(combinations(zip(colours, weights, strict=True), 2))
    whole = math.fsum(v * w for (_, v), (_, w) in pairs)
    if not whole > 0.0:
        raise ValueError(f"shares {list(weights)} were given: expected two above 0")
    return math.fsum(v * w * harmony(a, b) for (a, v), (b, w) in pairs) / whole


def warm_cool(lab: Lab) -> float:
    """Warmth of a colour: above 0 warm, below 0 cool (Ou, Luo, Woodcock & Wright 2004).

    Formula: −0.5 + 0.02 C*^1.07 cos(h − 50°).

    Args:
        lab: (L*, a*, b*)
    Returns: warmth [1], about −1.6 to +2.4
    Valid: single patches
    Source: Ou et al. 2004, Color Res. Appl. 29:232–240 (equation in several open libraries, read)

    >>> warm_cool((50.0, 0.0, 0.0))
    -0.5
    """
    return -0.5 + 0.02 * math.pow(chroma(lab), 1.07) * math.cos(math.radians(hue_deg(lab) - 50.0))


def template_distance(colours: Sequence[Lab], template: str) -> tuple[float, float]:
    """How far a palette lies from a hue scheme: sum of chroma × hue outside its sectors, least over all turns.

    Args:
        colours: (L*, a*, b*); template: i, V, L, I, T, Y, X (or L mirrored as "L-")
    Returns: (distance [chroma·°], turn of the scheme [°]); 0 where every hue lies in a sector
    Valid: a CIELAB hue wheel
    Source: Cohen-Or et al. 2006, ACM TOG 25(3) (sector widths in two open code bases, read)
    """
    sectors = _sectors(template)
    seen = [(chroma(c), hue_deg(c)) for c in colours]
    # the sum is straight between turns that put a hue on a sector's edge, and least at one of these
    edges = {0.0} | {(h - c + s * w / 2.0) % 360.0 for _, h in seen for c, w in sectors for s in (-1.0, 1.0)}
    return min((math.fsum(v * _outside(h - turn, sectors) for v, h in seen), turn) for turn in sorted(edges))


def _sectors(template: str) -> tuple[tuple[float, float], ...]:
    if template == "L-":
        return tuple((-c, w) for c, w in TEMPLATES["L"])
    if template not in TEMPLATES:
        raise ValueError(f'template "{template}" was given: expected one of {", ".join([*TEMPLATES, "L-"])}')
    return TEMPLATES[template]


def _outside(hue: float, sectors: tuple[tuple[float, float], ...]) -> float:
    return min(max(0.0, abs((hue - c + 180.0) % 360.0 - 180.0) - w / 2.0) for c, w in sectors)


def _apart(one: Lab, other: Lab) -> float:
    """ΔC of Ou & Luo: the metric hue difference ΔH*ab (not the angle) with ΔC*ab over 1.46."""
    chroma_step = chroma(one) - chroma(other)
    hue_square = max(0.0, (one[1] - other[1]) ** 2 + (one[2] - other[2]) ** 2 - chroma_step**2)
    return math.sqrt(hue_square + (chroma_step / 1.46) ** 2)


def _hue_part(lab: Lab) -> float:
    h = hue_deg(lab)
    strength = 0.5 + 0.5 * math.tanh(-2.0 + 0.5 * chroma(lab))
    wave = -0.08 - 0.14 * math.sin(math.radians(h + 50.0)) - 0.07 * math.sin(math.radians(2.0 * h + 90.0))
    yellow = (90.0 - h) / 10.0
    return strength * (wave + (0.22 * lab[0] - 12.8) / 10.0 * math.exp(yellow - math.exp(yellow)))
