"""Where the sans of print stands (Source Sans Pro, SIL Open Font License 1.1)."""

from importlib.util import find_spec
from pathlib import Path


def font_folder() -> str:
    """The folder of its files."""
    spec = find_spec("font_source_sans_pro")
    assert spec is not None and spec.origin is not None
    return str(Path(spec.origin).parent / "files")
