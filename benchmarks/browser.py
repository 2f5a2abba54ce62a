"""From leaving a field to the page redrawn, in a browser: script, network, saving, design, page, and the redraw.

    .venv/bin/python benchmarks/browser.py [--json]      (after `python3 run.py test`, which installs its driver)

A real server and Debian's chromium on one machine. Each edit sets the spacing of a row to a new value and waits for
the page. Of edits in a row the longer work beside waits for the last; of those now and then it has begun when the
next edit comes. Of edits in a row the server's processor time is told too, which other work on the machine moves less.
"""

import math
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from editing import DEMO, two_hundred
from playwright.sync_api import Page, sync_playwright
from telling import tell

QUIET = ("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync")  # fmt: skip
EDITS = 20
FIELD = '[data-path="containers.1.apart"]'


def edited(page: Page, address: str, *, pause_s: float) -> list[float]:
    """Time of each edit [ms], shortest first; the first two, which make all ready, are left out."""
    page.goto(address)
    times: list[float] = []
    for number in range(EDITS + 2):
        page.evaluate("() => performance.clearMeasures()")
        page.fill(FIELD, f"{6 + number / 10:.1f} ft")
        page.press(FIELD, "Enter") if number % 2 else page.press(FIELD, "Tab")
        page.wait_for_function("() => performance.getEntriesByName('edit').length")
        taken = page.evaluate("() => performance.getEntriesByName('edit')[0].duration")
        if number >= 2:
            times.append(taken)
        time.sleep(pause_s)
    return sorted(times)


def processor_s(process: int) -> float:
    """Processor time that a process has had [s]."""
    parts = Path(f"/proc/{process}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()
    return (int(parts[11]) + int(parts[12])) / os.sysconf("SC_CLK_TCK")


def rows() -> list[dict[str, Any]]:
    """One row for each plan and pace."""
    demo, found = DEMO.read_text(encoding="utf-8"), []
    with tempfile.TemporaryDirectory() as name:
        shutil.copy(DEMO.parent / "seattle_2012_2015.csv", name)
        (Path(name) / "demo.toml").write_text(demo, encoding="utf-8")
        (Path(name) / "large.toml").write_text(two_hundred(demo, left_open=False), encoding="utf-8")
        command = [sys.executable, "-m", "brimful", "serve", name, "--port", "0", "--no-browser"]
        with subprocess.Popen(command, stderr=subprocess.PIPE, text=True) as server, sync_playwright() as playwright:
            assert server.stderr is not None
            home = server.stderr.readline().strip()
            place = shutil.which("chromium")
            page = playwright.chromium.launch(executable_path=place, args=list(QUIET)).new_page()
            for plan, case in (("demo", "demo, 26 containers"), ("large", "200 containers, 10 zones")):
                for pause_s, pace in ((0.1, "edits in a row"), (1.5, "an edit now and then")):
                    before = processor_s(server.pid)
                    times = edited(page, f"{home}p/{plan}/edit?at=containers.1", pause_s=pause_s)
                    spent = 1e3 * (processor_s(server.pid) - before) / (EDITS + 2)
                    found.append(
                        {
                            "case": f"{case}, {pace}",
                            "median_ms": round(statistics.median(times)),
                            "p95_ms": round(times[math.ceil(0.95 * len(times)) - 1]),
                            "longest_ms": round(times[-1]),
                            "server_ms": round(spent) if pause_s < 1 else None,
                        }
                    )
            server.terminate()
    return found


def main() -> None:
    """Measure and print."""
    times = {"median, ms": "{median_ms:d}", "95 of 100, ms": "{p95_ms:d}", "longest, ms": "{longest_ms:d}"}
    tell(rows(), {"edit to redrawn page": "{case}"} | times | {"server's processor, ms": "{server_ms:d}"})


if __name__ == "__main__":
    main()
