"""Colours, palettes and colour vision: laws, known values, an independent library."""

import math

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.planting.colour import Lab, difference, lab_of_hex
from brimful.domains.planting.colour_vision import VISIONS, luminance_contrast, seen_apart, seen_lab
from brimful.domains.planting.harmony import (
    TEMPLATES,
    harmony,
    palette_harmony,
    template_distance,
    warm_cool,
)

web = st.integers(0, 0xFFFFFF).map(lambda v: f"#{v:06X}")
labs = st.tuples(st.floats(0, 100), st.floats(-120, 120), st.floats(-120, 120))


def polar(hue: float, strength: float = 50.0) -> Lab:
    """A colour of this hue."""
    return 60.0, strength * math.cos(math.radians(hue)), strength * math.sin(math.radians(hue))


@pytest.mark.parametrize(
    ("colour", "expected"),
    [
        ("#FF0000", (53.24, 80.09, 67.20)),
        ("#00FF00", (87.73, -86.18, 83.18)),
        ("#0000FF", (32.30, 79.19, -107.86)),
    ],
)
def test_primaries_in_cielab(colour: str, expected: Lab) -> None:
    """CIELAB of the sRGB primaries (two open code bases, read)."""
    assert lab_of_hex(colour) == pytest.approx(expected, abs=5e-3)


@given(web)
def test_cielab_against_an_open_library(colour: str) -> None:
    """CIELAB agrees with coloraide; its matrix and white carry other last digits, worth 0.03 at most."""
    assert lab_of_hex(colour) == pytest.approx(Color(colour).convert("lab-d65").coords(), abs=0.03)


@given(labs, labs)
def test_difference_against_an_open_library(one: Lab, other: Lab) -> None:
    """CIEDE2000 agrees with coloraide wherever the two hues are not half a turn apart, where it jumps."""
    turn = abs((math.atan2(one[2], one[1]) - math.atan2(other[2], other[1])) % (2 * math.pi) - math.pi)
    theirs = Color("lab-d65", one).delta_e(Color("lab-d65", other), method="2000")
    ours = difference(one, other)
    assert ours == pytest.approx(theirs, abs=1e-6) or turn < 0.2


@given(labs, labs)
def test_difference_is_symmetric_and_zero_only_for_equals(one: Lab, other: Lab) -> None:
    """Either order gives one figure; a colour differs from itself by nothing."""
    assert difference(one, other) == pytest.approx(difference(other, one), abs=1e-9)
    assert difference(one, one) == 0.0
    assert difference(one, other) >= 0.0


@given(labs, labs)
def test_harmony_is_symmetric(one: Lab, other: Lab) -> None:
    """A pair is as harmonious read either way, and a palette of two is its one pair."""
    assert harmony(one, other) == pytest.approx(harmony(other, one), abs=1e-12)
    assert palette_harmony([one, other]) == pytest.approx(harmony(one, other), abs=1e-12)


def test_a_palette_weighs_by_area() -> None:
    """A colour without area counts for nothing; a palette of one colour has no harmony to give."""
    a, b, c = polar(20), polar(200), polar(300)
    assert palette_harmony([a, b, c], [1.0, 2.0, 0.0]) == pytest.approx(harmony(a, b))
    with pytest.raises(ValueError, match="two colours"):
        palette_harmony([a])
    with pytest.raises(ValueError, match="shares"):
        palette_harmony([a, b], [1.0, 0.0])


def test_warm_is_orange_and_cool_is_blue() -> None:
    """At equal chroma hue 50° is warmest and its opposite coolest."""
    assert max(range(0, 360, 10), key=lambda h: warm_cool(polar(h))) == 50
    assert min(range(0, 360, 10), key=lambda h: warm_cool(polar(h))) == 230


@given(st.lists(st.floats(0, 360), min_size=1, max_size=5), st.sampled_from([*TEMPLATES, "L-"]), st.floats(0, 360))
def test_a_scheme_turns_with_its_palette(hues: list[float], template: str, turn: float) -> None:
    """Turning all hues alike changes no distance, and no finer search of turns finds a smaller one."""
    colours = [polar(h) for h in hues]
    least, _ = template_distance(colours, template)
    assert template_distance([polar(h + turn) for h in hues], template)[0] == pytest.approx(least, abs=1e-6)
    if template in ("V", "T"):
        half = TEMPLATES[template][0][1] / 2
        tried = (sum(50 * max(0.0, abs((h - t / 2 + 180) % 360 - 180) - half) for h in hues) for t in range(720))
        assert least <= min(tried) + 1e-6


def test_sector_widths() -> None:
    """Sectors as published (Cohen-Or et al. 2006; read in code): hues just inside fit, just outside do not."""
    assert template_distance([polar(0), polar(17.9)], "i")[0] == pytest.approx(0.0, abs=1e-9)
    assert template_distance([polar(0), polar(18.1)], "i")[0] == pytest.approx(50 * 0.1, abs=1e-6)
    assert template_distance([polar(0), polar(93.5)], "V")[0] == pytest.approx(0.0, abs=1e-9)
    assert template_distance([polar(10), polar(190)], "I")[0] == pytest.approx(0.0, abs=1e-9)
    assert template_distance([polar(0), polar(90 + 9 + 39.5)], "L")[0] == pytest.approx(0.0, abs=1e-9)
    assert template_distance([polar(0), polar(-90 - 9 - 39.5)], "L-")[0] == pytest.approx(0.0, abs=1e-9)
    with pytest.raises(ValueError, match="template"):
        template_distance([polar(0)], "Z")


@given(web, st.sampled_from(["protan", "deutan", "tritan"]))
def test_colour_vision_against_an_open_library(colour: str, vision: str) -> None:
    """Simulated colours agree with coloraide's filter of the same work, once both are cut to what a screen shows."""
    seen = Color(colour).filter(vision, method="machado", space="srgb-linear", out_space="srgb-linear")
    seen = Color("srgb-linear", [min(1.0, max(0.0, v)) for v in seen.coords()])
    assert seen_lab(colour, vision) == pytest.approx(seen.convert("lab-d65").coords(), abs=0.05)


def test_greys_look_the_same_to_everyone() -> None:
    """Each matrix keeps white white: its rows add up to one (Machado et al. 2009)."""
    for matrix in VISIONS.values():
        assert [sum(row) for row in matrix] == pytest.approx([1.0, 1.0, 1.0], abs=2e-6)
    with pytest.raises(ValueError, match="vision"):
        seen_lab("#000000", "dog")


def test_red_on_green_is_lost_and_yellow_on_blue_is_not() -> None:
    """Scarlet on leaf green falls to about a fifth for red-green blind eyes; yellow with violet-blue holds in all."""
    lost, kept = seen_apart("#DA2418", "#4E7F37"), seen_apart("#F5D50A", "#4B47B5")
    assert not lost.apart and lost.by_vision["normal"] > 50
    assert lost.least < 12
    assert kept.apart and kept.least > 50


def test_contrast_runs_from_1_to_21() -> None:
    """Black on white is 21:1, a colour on itself 1:1 (WCAG, from memory)."""
    assert luminance_contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert luminance_contrast("#123456", "#123456") == 1.0


@pytest.mark.parametrize("text", ["", "red", "#12345", "#1234567", "#12345G"])
def test_what_is_no_colour_is_refused(text: str) -> None:
    """Anything but six hex digits is refused with what was given."""
    with pytest.raises(ValueError, match="expected a colour"):
        lab_of_hex(text)
