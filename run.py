"""Start here: `python3 run.py demo`, `python3 run.py test`, `python3 run.py bench NAME`. Needs Python 3.11 or newer.

Makes a virtual environment in .venv beside this file, installs the pinned packages, and runs what was asked.
"""

from __future__ import annotations  # so that an older Python gets as far as being told

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
VENV = HERE / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
USAGE = """usage: python3 run.py demo [PLAN OPTIONS]   work out the demo plan
       python3 run.py test [--all]          every check; --all adds the long ones
       python3 run.py bench NAME [--json]   measure: hydraulics, season, planting, editing, page,
                                            book, learning, calibration
       python3 run.py brimful ARGUMENTS     the brimful command itself"""


def say(words: str) -> None:
    """Tell the person what is going on, without disturbing what the command prints."""
    print(words, file=sys.stderr, flush=True)


def run(*command: str | Path) -> int:
    """Run a command here and give its exit code; byte code is kept, since start-up is slow without it."""
    keep = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    return subprocess.run([str(c) for c in command], cwd=HERE, env=keep, check=False).returncode


def make_environment() -> None:
    """Make .venv with uv where it is present, else with venv; a clear word where neither can."""
    if shutil.which("uv"):
        code = run("uv", "venv", "--quiet", "--python", sys.executable, VENV)
    else:
        code = run(sys.executable, "-m", "venv", VENV)
    if code:
        shutil.rmtree(VENV, ignore_errors=True)
        sys.exit("Python's venv is missing. On Debian or Ubuntu: sudo apt install python3-venv. Then run this again.")


def install(extra: str) -> None:
    """Install Brimful and the pinned packages of one extra ("" for none), unless they stand installed already."""
    wanted = (HERE / "pyproject.toml").read_bytes() + (HERE / "constraints.txt").read_bytes()
    mark = VENV / f"installed-{extra or 'run'}.txt"
    digest = hashlib.sha256(wanted).hexdigest()
    if PYTHON.exists() and mark.exists() and mark.read_text() == digest:
        return
    if not PYTHON.exists():
        say("Making .venv ...")
        make_environment()
    say("Installing packages (once) ...")
    target = f".[{extra}]" if extra else "."
    if shutil.which("uv"):
        tool: list[str | Path] = ["uv", "pip", "install", "--quiet", "--python", PYTHON]
    else:
        tool = [PYTHON, "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    if run(*tool, "--constraint", "constraints.txt", "--editable", target):
        sys.exit("The packages could not be installed. Is there a network? The lines above say what failed.")
    mark.write_text(digest)


def demo(*arguments: str) -> int:
    """Work out the demo plan."""
    install("")
    return run(PYTHON, "-m", "brimful", "demo", *arguments)


def brimful(*arguments: str) -> int:
    """Run the brimful command itself."""
    install("")
    return run(PYTHON, "-m", "brimful", *arguments)


def test(*arguments: str) -> int:
    """Every check, one after the other; all of them run, and any failure fails the whole."""
    install("test")
    whole = "--all" in arguments
    rest = [a for a in arguments if a != "--all"]
    if whole:
        os.environ["BRIMFUL_TEST_ALL"] = "1"
    checks: list[list[str]] = [
        ["ruff", "format", "--check", "."],
        ["ruff", "check", "."],
        ["mypy"],
        ["importlinter"],
        ["pytest", "-n", "2", *rest],
    ]
    failed = []
    for check in checks:
        say(f"── {' '.join(check)}")
        module = (
            ["-c", "from importlinter.cli import lint_imports_command as c; c()"]
            if check[0] == "importlinter"
            else ["-m", *check]
        )
        if run(PYTHON, *module):
            failed.append(check[0])
    say(f"failed: {', '.join(failed)}" if failed else "all checks passed")
    return len(failed)


def bench(*arguments: str) -> int:
    """Measure speed against other engines in one run."""
    if not arguments:
        sys.exit(USAGE)
    install("bench")
    return run(PYTHON, HERE / "benchmarks" / f"{arguments[0]}.py", *arguments[1:])


def main(arguments: list[str]) -> int:
    """Do what was asked, or say what can be asked."""
    doors = {"demo": demo, "test": test, "bench": bench, "brimful": brimful}
    if sys.version_info < (3, 11):  # noqa: UP036  (an older Python may well be what starts this file)
        sys.exit(f"Brimful needs Python 3.11 or newer; this is {sys.version.split()[0]}.")
    if not arguments or arguments[0] not in doors:
        print(USAGE)
        return 0 if arguments and arguments[0] in ("-h", "--help", "help") else 2
    return min(doors[arguments[0]](*arguments[1:]), 1)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
