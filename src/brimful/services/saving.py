"""Files written whole or not at all."""

import errno
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path


def save_all(folder: Path, files: Mapping[str, str | bytes]) -> list[Path]:
    """Write files by name into a folder, made where it is missing, each whole or not at all; gives their paths.

    Raises:
        OSError: it cannot be written; a file that stands in its place stays as it is.
    """
    if folder.exists() and not folder.is_dir():
        raise NotADirectoryError(
            errno.ENOTDIR, "a file stands there; give the name of a folder, new or old", str(folder)
        )
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in files.items():
        save_whole(folder / name, content)
    return [folder / name for name in files]


def save_whole(path: Path, content: str | bytes, mode: int = 0o644) -> None:
    """Replace a file in one step, so that it is never half written."""
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content if isinstance(content, bytes) else content.encode("utf-8"))
            file.flush()
            os.fsync(file.fileno())
        Path(temporary).chmod(mode)
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
