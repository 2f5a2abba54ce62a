"""Speed of the page: start, pages, many readers at once, and how soon a changed plan is seen.

    python3 run.py bench page [--json]

A real server on loopback in a process of its own, asked over plain HTTP as a browser would ask, gzip and all, by
clients in this process. "Seen" is the time from the changed file to an answered page of the changed plan.
"""

import gzip
import http.client
import json
import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urljoin, urlsplit

from telling import tell

from brimful.services import example
from brimful.web.pages import PAGES

DEMO = "alder_point_landing"
READERS, READS = 50, 20
EDITS = 20
STARTS = 7
LARGE_ROWS, LARGE_COUNT = 10, 20
Row = dict[str, Any]


def row(case: str, value: float, unit: str, p95: float | None = None, note: str = "") -> Row:
    """One line of the table: the middle of the values, and what 19 of 20 stay below."""
    return {
        "case": case,
        "p50": round(value, 4),
        "p95": None if p95 is None else round(p95, 4),
        "unit": unit,
        "note": note,
    }


def spread(case: str, seconds: list[float], note: str = "") -> Row:
    """A line from times [s], in milliseconds."""
    ordered = sorted(seconds)
    at = min(len(ordered) - 1, round(0.95 * (len(ordered) - 1)))
    return row(case, 1e3 * statistics.median(ordered), "ms", 1e3 * ordered[at], note)


class Reader:
    """One who reads, over one connection that is kept."""

    def __init__(self, address: str) -> None:
        self.place = urlsplit(address)
        self.connection = http.client.HTTPConnection(self.place.hostname or "", self.place.port, timeout=120)

    def ask(self, path: str) -> tuple[int, bytes, int]:
        """Status, content, and the bytes that came over the network."""
        try:
            self.connection.request("GET", path, headers={"Accept-Encoding": "gzip"})
            answer = self.connection.getresponse()
        except http.client.RemoteDisconnected:  # idle too long; a browser, too, asks again then
            self.connection.close()
            return self.ask(path)
        raw = answer.read()
        packed = answer.getheader("content-encoding") == "gzip"
        return answer.status, gzip.decompress(raw) if packed else raw, len(raw)


@contextmanager
def served(plan: Path) -> Iterator[tuple[str, float, int]]:
    """A server on a plan: its address, when it was started, and the number of its process."""
    with tempfile.TemporaryDirectory() as folder:
        told = Path(folder) / "told.txt"
        command = [sys.executable, "-m", "brimful", "serve", str(plan), "--port", "0", "--no-browser"]
        started = time.perf_counter()
        with told.open("wb") as out:
            process = subprocess.Popen(command, stdout=out, stderr=out, stdin=subprocess.DEVNULL)
        try:
            while "\n" not in told.read_text():
                if process.poll() is not None:
                    raise SystemExit(told.read_text())
                time.sleep(0.002)
            yield told.read_text().split()[0], started, process.pid
        finally:
            process.kill()
            process.wait()


def home(plan: Path) -> str:
    """The address of a plan's pages."""
    return f"/p/{plan.stem}/"


def until_done(reader: Reader, plan: Path) -> None:
    """Wait until the longer work is done."""
    while json.loads(reader.ask(f"{home(plan)}work")[1])["doing"]:
        time.sleep(0.02)


def starts(plan: Path, name: str) -> Row:
    """From the start of the process to the whole first page; a browser that asks as soon as anyone answers."""
    times, busy = [], []
    for _ in range(STARTS):
        with served(plan) as (address, started, process):
            status, text, _ = Reader(address).ask(home(plan))
            assert status == 200
            assert b'class="stand' in text
            times.append(time.perf_counter() - started)
            busy.append(processor_s(process))
    note = f"processor time {1e3 * min(busy):.0f} ms" if min(busy) else ""
    return spread(f"{name}: first page after the start of the process", times, note)


def processor_s(process: int) -> float:
    """Processor time a process has taken so far [s], which other work on the machine hardly sways; 0 where untold."""
    told = Path(f"/proc/{process}/stat")
    if not told.exists():
        return 0.0
    fields = told.read_text(encoding="ascii", errors="replace").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def pages(reader: Reader, plan: Path, name: str) -> Iterator[Row]:
    """Each lens once warmed, then asked again and again by one reader."""
    for page in PAGES:
        path, times = home(plan) + page.key, []
        reader.ask(path)
        for _ in range(25):
            begun = time.perf_counter()
            assert reader.ask(path)[0] == 200
            times.append(time.perf_counter() - begun)
        yield spread(f"{name}: {page.title}", times)


def crowd(address: str, plan: Path, name: str) -> Row:
    """Many readers at once, each with a connection of its own, each going through the lenses."""

    def read(first: int) -> list[float]:
        reader, times = Reader(address), []
        for n in range(READS):
            begun = time.perf_counter()
            status, _, _ = reader.ask(home(plan) + PAGES[(first + n) % len(PAGES)].key)
            times.append(time.perf_counter() - begun)
            wrong.extend([] if status == 200 else [status])
        return times

    wrong: list[int] = []
    begun = time.perf_counter()
    with ThreadPoolExecutor(READERS) as readers:
        times = [one for many in readers.map(read, range(READERS)) for one in many]
    rate = len(times) / (time.perf_counter() - begun)
    return spread(
        f"{name}: a page, {READERS} readers at once", times, f"{rate:.0f} pages a second, {len(wrong)} errors"
    )


def edits(reader: Reader, plan: Path, name: str) -> Iterator[Row]:
    """The pressure of the supply changed in the file: until a page shows the design, and until all is worked out."""
    text, seen, whole = plan.read_text(encoding="utf-8"), [], []
    for n in range(EDITS):
        changed, count = re.subn(r'(?m)^pressure = ".*"', f'pressure = "{60 + 0.1 * n:.1f} psi"', text, count=1)
        assert count
        old = mark_of(reader.ask(home(plan))[1])
        plan.write_text(changed, encoding="utf-8")
        begun = time.perf_counter()
        while mark_of(reader.ask(home(plan))[1]) == old:
            time.sleep(0.001)
        seen.append(time.perf_counter() - begun)
        if n % 5 == 0:
            until_done(reader, plan)
            whole.append(time.perf_counter() - begun)
    plan.write_text(text, encoding="utf-8")
    yield spread(f"{name}: a changed number seen in the design", seen, f"{EDITS} edits, longer work under way")
    yield spread(f"{name}: the same, season, build and planting too", whole)


def undone(reader: Reader, plan: Path, name: str) -> Row:
    """Back to the text before, which was worked out already."""
    text, times = plan.read_text(encoding="utf-8"), []
    reader.ask(home(plan))
    until_done(reader, plan)
    for n in range(5):
        plan.write_text(f"{text}\n# {n}\n", encoding="utf-8")
        reader.ask(home(plan))
        plan.write_text(text, encoding="utf-8")
        begun = time.perf_counter()
        reader.ask(home(plan))
        times.append(time.perf_counter() - begun)
        assert not json.loads(reader.ask(f"{home(plan)}work")[1])["doing"]
    return spread(f"{name}: back to an earlier text, all worked out", times)


def mark_of(page: bytes) -> bytes:
    """The mark of the plan's content that a page carries."""
    found = re.search(rb'data-digest="([0-9a-f]+)"', page)
    return found[1] if found else b""


def weights(reader: Reader, plan: Path, name: str) -> Iterator[Row]:
    """What the first load of each lens brings over the network: the page, its style, script and pictures."""
    heaviest, most = "", 0
    for page in PAGES:
        path = home(plan) + page.key
        _, text, total = reader.ask(path)
        shown = re.findall(r'(?:<img src|<script src|rel="stylesheet" href)="([^"]+)"', text.decode())
        for one in dict.fromkeys(shown):
            total += reader.ask(urljoin(path, one.replace("&amp;", "&")))[2]
        if total > most:
            heaviest, most = page.title, total
    yield row(f"{name}: first load of the heaviest lens", most / 1e3, "kB", note=heaviest)


def large(folder: Path) -> Path:
    """A plan of two hundred containers in ten rows, each row a zone."""
    lines = [
        'title = "Two hundred"',
        "",
        "[supply]",
        'pressure = "60 psi"',
        'bucket_tests = ["5 gal in 20 s at 50 psi"]',
        "",
    ]
    for n in range(LARGE_ROWS):
        lines += ["[[zone]]", f'name = "zone {n + 1}"', ""]
    shape = '{ shape = "round", top = "40 cm", bottom = "30 cm", height = "38 cm", material = "terracotta" }'
    for n in range(LARGE_ROWS):
        lines += ["[[containers]]", f'name = "row {n + 1}"', f"count = {LARGE_COUNT}", f'zone = "zone {n + 1}"',
                  'apart = "0.6 m"', f"container = {shape}",
                  'plants = ["1 angelonia", "2 zonal geranium", "2 calibrachoa"]', ""]  # fmt: skip
    path = folder / "two_hundred.toml"
    path.write_text("\n".join(lines), encoding="utf-8")
    return path


def everything() -> list[Row]:
    """All cases, on copies of the plans."""
    rows: list[Row] = []
    with tempfile.TemporaryDirectory() as there:
        folder = Path(there)
        for beside in example(DEMO).parent.iterdir():
            if beside.is_file():
                (folder / beside.name).write_bytes(beside.read_bytes())
        for name, plan in (("demo", folder / f"{DEMO}.toml"), ("200 containers", large(folder))):
            rows.append(starts(plan, name))
            with served(plan) as (address, _, _):
                reader = Reader(address)
                reader.ask(home(plan))
                until_done(reader, plan)
                rows += [*pages(reader, plan, name), crowd(address, plan, name), *weights(reader, plan, name)]
                rows += [*edits(reader, plan, name), undone(reader, plan, name)]
    return rows


def main() -> None:
    """Print a table, or with --json the list."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    rows = everything()
    tell(rows, {"case": "{case}", "middle": "{p50:.3g}", "19 of 20 below": "{p95:.3g}", "unit": "{unit}", "": "{note}"})


if __name__ == "__main__":
    main()
