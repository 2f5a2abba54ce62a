"""How long a book takes, from a plan's file to the PDF, and where the time goes.

    python3 run.py bench book [--json]

Seconds of processor time, the best of three: reading and working out, drawings and charts, setting the pages. The
setter alone may use more than one core; its wall time is then less. The last column is the whole over the demo's.
"""

import os
import tempfile
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import pypdfium2 as pdfium
from telling import tell

from brimful.render.book.blocks import Style
from brimful.render.book.make import book_data, book_pdf
from brimful.services import example, see

TODAY = date(2026, 1, 1)
RUNS = 3
NORMALS = """[site]
latitude = 45
[site.normals]
tmax = "5 6 9 13 17 21 25 25 21 15 9 6 °C"
tmin = "-1 0 2 4 8 11 13 13 10 6 2 0 °C"
"""
ROW = """[[zone]]
name = "zone {i}"
[[containers]]
name = "row {i}"
zone = "zone {i}"
count = 10
apart = "6 ft"
container = "round-concrete-31x25"
plants = ["1 purple-fountain-grass", "4 geranium-zonal", "5 calibrachoa-trailing"]
"""
Row = dict[str, Any]


def hundred(folder: Path) -> Path:
    """A plan of ten rows of ten containers, each row a zone of its own."""
    supply = '[supply]\npressure = "60 psi"\nbucket_tests = ["5 gal in 15 s at 45 psi"]\n'
    path = folder / "hundred.toml"
    path.write_text(NORMALS + supply + "".join(ROW.format(i=i) for i in range(1, 11)), encoding="utf-8")
    return path


def best(work: Callable[[], Any]) -> tuple[float, float, Any]:
    """Least processor and wall time of several runs [s], and what came of the last."""
    least, wall, found = float("inf"), float("inf"), None
    for _ in range(RUNS):
        clock, start = time.perf_counter(), time.process_time()
        found = work()
        least, wall = min(least, time.process_time() - start), min(wall, time.perf_counter() - clock)
    return least, wall, found


def measured(case: str, path: Path, style: Style) -> Row:
    """One line of the table."""
    seen, seen_wall, answer = best(lambda: see(path, today=TODAY))
    scene = answer.scene
    assert scene is not None, answer.findings
    drawn, _, _ = best(lambda: book_data(scene, style))
    whole, whole_wall, pdf = best(lambda: book_pdf(scene, style))
    return {
        "case": case,
        "pages": len(pdfium.PdfDocument(pdf)),
        "work_out_s": seen,
        "drawings_s": drawn,
        "pages_set_s": max(0.0, whole - drawn),
        "whole_s": seen + whole,
        "whole_wall_s": seen_wall + whole_wall,
    }


def main() -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as folder:
        large = hundred(Path(folder))
        rows = [
            measured("demo, 26 containers", example("alder_point_landing"), Style()),
            measured("demo, large print", example("alder_point_landing"), Style("letter", 14.0)),
            measured("100 containers, 10 zones", large, Style()),
        ]
    for row in rows:
        row["times_the_demo"] = row["whole_s"] / rows[0]["whole_s"]
    figures = {
        "worked out, s": "{work_out_s:.2f}",
        "drawings, s": "{drawings_s:.2f}",
        "pages set, s": "{pages_set_s:.2f}",
        "whole, s": "{whole_s:.2f}",
        "on the clock, s": "{whole_wall_s:.2f}",
        "times the demo": "{times_the_demo:.2f}",
    }
    tell(rows, {"case": "{case}", "pages": "{pages:d}"} | figures)


if __name__ == "__main__":
    main()
