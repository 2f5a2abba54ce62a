"""Invented zones that several tests and the benchmark solve."""

from brimful.domains.hydraulics.assembly import Assembly, Dripline, Feeder, SingleEmitters, Tube
from brimful.domains.hydraulics.emitters import CompensatingEmitter, rated_emitter
from brimful.domains.hydraulics.zone import Lateral, Main, Station, Zone

QUARTER, HALF, THREE_QUARTER = Tube(0.00432), Tube(0.01524), Tube(0.0208)
EMITTER = rated_emitter(1.9, 10.546, exponent=0.5)


def looped(*, closed: bool = False, count: int = 16, rise_m: float = 0.6, lines: int = 1) -> Assembly:
    """A feeder and a dripline, open or closed to a ring."""
    return Assembly(Feeder(QUARTER, 1.0, 1.5), Dripline(QUARTER, 0.1524, count, EMITTER, closed, lines, 0.2), rise_m)


def dripped(count: int = 4) -> Assembly:
    """A feeder and compensating emitters at its end."""
    return Assembly(Feeder(QUARTER, 0.8), SingleEmitters(CompensatingEmitter(2.0, 0.0, 7.0, 40.0), count), 0.5)


def rows(
    laterals: int,
    pots: int,
    assemblies: tuple[Assembly, ...] = (looped(),),
    *,
    bore_m: float = 0.0208,
    main_m: float = 0.0208,
) -> Zone:
    """Rows left and right of a main, the assemblies taken in turn, the ground rising along each row."""
    return Zone(
        "square",
        Main(Tube(main_m), 0.3, 1.0),
        tuple(
            Lateral(
                f"row {i + 1}",
                Tube(bore_m),
                tuple(
                    Station(
                        f"pot {i * pots + j + 1}", 2.0 + 1.5 * j, assemblies[j % len(assemblies)], 0.02 * j + 0.1 * i
                    )
                    for j in range(pots)
                ),
                3.0 + 4.0 * (i // 2),
                0.9,
                0.6,
            )
            for i in range(laterals)
        ),
    )
