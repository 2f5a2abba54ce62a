"""Hydraulic Institute, Engineering Data Library, section IIIB: friction of water in Schedule 40 steel pipe.

Printed: head in ft per 100 ft, roughness 0.00015 ft (repository hydraulic-institute/edb, files flw1, flw2, flw4, flw5;
read). Viscosity 1.21e-5 ft²/s (60 °F) is inferred: it fits the laminar rows to 0.5 %. Rows left out as misprints:
0.622 in at 1 gpm, 0.824 in at 1 gpm. Tolerance 1 % (the table's own rounding is up to 0.5 %).
"""

import math

import pytest

from brimful.domains.hydraulics.friction import FRICTION_LAWS
from brimful.domains.hydraulics.pipe import Pipe, Water

FT, GPM_L_H = 0.3048, 227.12470704
WATER = Water(1.21e-5 * FT**2, law=FRICTION_LAWS["colebrook"])
CELLS = [
    (0.269, 0.02, 0.272),
    (0.269, 0.10, 1.359),
    (0.269, 0.30, 9.7),
    (0.269, 0.50, 24.2),
    (0.269, 1.0, 87.0),
    (0.364, 0.10, 0.405),
    (0.364, 0.40, 3.7),
    (0.364, 1.0, 19.1),
    (0.364, 2.0, 69.0),
    (0.622, 0.7, 0.74),
    (0.622, 1.5, 2.85),
    (0.622, 2.0, 4.78),
    (0.622, 3.0, 10.0),
    (0.622, 5.0, 25.8),
    (0.824, 1.5, 0.73),
    (0.824, 2.0, 1.21),
    (0.824, 3.0, 2.5),
    (0.824, 5.0, 6.32),
    (0.824, 10.0, 23.0),
]


@pytest.mark.parametrize(("bore_in", "gpm", "printed"), CELLS)
def test_printed_cell(bore_in: float, gpm: float, printed: float) -> None:
    """Head lost over 100 ft equals the printed cell within 1 %."""
    pipe = Pipe.of(100.0, bore_in * 0.0254, roughness_m=0.00015 * FT, loss_k=0.0, water=WATER)
    assert pipe.loss(gpm * GPM_L_H)[0] == pytest.approx(printed, rel=0.01)


def test_laminar_runs_a_little_past_2000() -> None:
    """The cell 0.269 in, 0.20 gpm (printed 2.717) is laminar at Re 2092: 64/Re reproduces it."""
    re = 4 * 0.20 * GPM_L_H / 3.6e6 / (math.pi * 0.269 * 0.0254 * WATER.viscosity_m2_s)
    assert 2050 < re < 2150
    pipe = Pipe.of(100.0, 0.269 * 0.0254, roughness_m=0.0, loss_k=0.0, water=Water(WATER.viscosity_m2_s))
    assert pipe.laminar * 0.20 * GPM_L_H == pytest.approx(2.717, rel=0.01)
