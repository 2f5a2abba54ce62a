"""Two-colour harmony and single-colour warmth against worked values.

Ou & Luo 2006, "A colour harmony model for two-colour combinations", Color Res. Appl. 31(3):191–204; Ou, Luo, Woodcock &
Wright 2004, Color Res. Appl. 29(3):232–240. The papers were not read; equations as in three and in several public
transcriptions (read). Values calculated once, apart from this code, from those equations.
"""

import pytest

from brimful.domains.planting.colour import lab_of_hex
from brimful.domains.planting.harmony import harmony, harmony_parts, warm_cool


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        ("#FF0000", "#0000FF", -0.6839),
        ("#FF0000", "#00FF00", -0.1026),
        ("#FFFF00", "#0000FF", 0.0612),
        ("#808080", "#808080", 0.3150),
        ("#FFFFFF", "#000000", 0.5495),
        ("#FFFFFF", "#FFFFFF", 1.1823),
        ("#000000", "#000000", 0.1185),
    ],
)
def test_harmony_of_pairs(one: str, other: str, expected: float) -> None:
    """Harmony of primaries and greys (calculated)."""
    assert harmony(lab_of_hex(one), lab_of_hex(other)) == pytest.approx(expected, abs=5e-5)


def test_harmony_parts_use_the_metric_hue_difference() -> None:
    """Red with blue part by part (calculated); the hue difference is the metric one, not the angle."""
    parts = harmony_parts(lab_of_hex("#FF0000"), lab_of_hex("#0000FF"))
    assert parts == pytest.approx((-0.4900, 0.0883, -0.2821), abs=5e-5)
    assert harmony_parts(lab_of_hex("#808080"), lab_of_hex("#808080"))[0] == pytest.approx(0.3919, abs=5e-5)


def test_metric_hue_difference_of_grey_pairs_is_nothing() -> None:
    """A pale pink with a pink of the same hue differs in chroma only (calculated): an angle would tell them apart."""
    assert harmony(lab_of_hex("#F6CFDA"), lab_of_hex("#EE8FB4")) == pytest.approx(0.410, abs=5e-4)


@pytest.mark.parametrize(
    ("colour", "expected"),
    [
        ("#FF0000", 2.351),
        ("#FFFF00", 1.112),
        ("#00FF00", -0.267),
        ("#00FFFF", -1.598),
        ("#0000FF", -1.394),
        ("#808080", -0.500),
    ],
)
def test_warmth_of_primaries(colour: str, expected: float) -> None:
    """Warm–cool of primaries (calculated)."""
    assert warm_cool(lab_of_hex(colour)) == pytest.approx(expected, abs=5e-4)
