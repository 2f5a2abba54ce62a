"""Speed from an edit to its design: a plan kept on the desk against the same text worked out from the start.

    python3 run.py bench editing [--json]

Each edit sets one field to a value not seen before: spacing of a row, ground of a row, pressure at the tap, a plant.
Figures are the median and 95 of 100, in milliseconds of processor time, from the text before the edit to design and
findings after it.
"""

import os
import shutil
import tempfile
import time
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from telling import tell

from brimful.plan.write import Set, rewrite
from brimful.services import example
from brimful.services.desk import PlanDesk

DEMO = example("alder_point_landing")
EDITS = 80
Row = dict[str, Any]


def two_hundred(demo: str, *, left_open: bool) -> str:
    """Two hundred containers in twenty rows and ten zones, with the demo's site and tubes, or with tubes left open."""
    head = demo[: demo.index("[[containers]]")]
    if left_open:
        head = head[: head.index("[tubing]")] + head[head.index("[recipe.promenade]") :]
    zones = "".join(f'[[zone]]\nname = "zone {zone}"\n\n' for zone in range(1, 11))
    rows = (
        f'[[containers]]\nname = "row {row}."\nzone = "zone {row // 2 + 1}"\ncount = 10\napart = "8 ft"\n'
        'approach = "6 ft"\ncontainer = "round-fibre-cement-30x24"\nrecipe = "promenade"\n'
        for row in range(20)
    )
    return head + zones + "\n".join(rows)


def edit(number: int) -> Set:
    """One of four kinds of edit, each with a value of its own."""
    kinds = (
        Set(("containers", 0, "apart"), f"{5 + number / 100:.2f} ft"),
        Set(("containers", 1, "rise"), f"{number} in"),
        Set(("supply", "pressure"), f"{60 + number / 10:.1f} psi"),
        Set(("recipe", "gate", "plants", 2), f"{1 + number % 20} geranium-zonal"),
    )
    return kinds[number % 4]


def times_ms(folder: Path, text: str, *, kept: bool) -> list[float]:
    """Time of each edit [ms], in order of length."""
    desk, times = PlanDesk(folder / "plan.toml"), []
    desk.look(text)
    for number in range(EDITS if kept else 8):
        step = edit(number)
        start = time.process_time()
        text = rewrite(text, step).text
        (desk if kept else PlanDesk(desk.path)).look(text)
        times.append(1e3 * (time.process_time() - start))
    return sorted(times)


def rows() -> list[Row]:
    """One row for each plan."""
    demo = DEMO.read_text(encoding="utf-8")
    cases = {
        "demo, 26 containers": demo,
        "200 containers, 10 zones, tubes fixed": two_hundred(demo, left_open=False),
        "200 containers, 10 zones, tubes left open": two_hundred(demo, left_open=True),
    }
    found = []
    with tempfile.TemporaryDirectory() as name:
        shutil.copy(DEMO.parent / "seattle_2012_2015.csv", name)
        for case, text in cases.items():
            kept, anew = times_ms(Path(name), text, kept=True), times_ms(Path(name), text, kept=False)
            middle, start = kept[len(kept) // 2], anew[len(anew) // 2]
            found.append(
                {
                    "case": case,
                    "median_ms": round(middle, 1),
                    "p95_ms": round(kept[int(0.95 * len(kept))], 1),
                    "from_the_start_ms": round(start, 1),
                    "times_as_fast": round(start / middle, 1),
                }
            )
    return found


def main() -> None:
    """Measure and print."""
    figures = {"edit to design, median ms": "{median_ms:g}", "95 of 100, ms": "{p95_ms:g}"}
    start = {"from the start, ms": "{from_the_start_ms:g}", "times as fast": "{times_as_fast:g}"}
    tell(rows(), {"case": "{case}"} | figures | start)


if __name__ == "__main__":
    main()
