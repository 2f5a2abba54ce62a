"""Plans to start from."""

from pathlib import Path


def write_starter(path: Path) -> None:
    """Write a commented starter plan; a file that is there already stays as it is.

    Raises:
        FileExistsError: something stands at `path`.
        OSError: the file cannot be written.
    """
    from brimful.plan.starters import STARTER

    with path.open("x", encoding="utf-8") as file:
        file.write(STARTER)


def example(name: str) -> Path:
    """The path of an example plan that comes with Brimful."""
    return Path(__file__).parent.parent / "examples" / f"{name}.toml"
