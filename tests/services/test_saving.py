"""Files written by name into a folder: whole, or not at all."""

from pathlib import Path

import pytest

from brimful.services import save_all


def test_a_folder_is_made_and_filled(tmp_path: Path) -> None:
    """Its parents too; text and bytes; what stood there under the name gives way."""
    place = tmp_path / "a" / "b"
    assert save_all(place, {"one.txt": "old"}) == [place / "one.txt"]
    save_all(place, {"one.txt": "é", "two.bin": b"\x00"})
    assert sorted((one.name, one.read_bytes()) for one in place.iterdir()) == [
        ("one.txt", "é".encode()),
        ("two.bin", b"\x00"),
    ]


def test_a_file_in_place_of_the_folder_stays_and_is_told(tmp_path: Path) -> None:
    """In words, not as the system says it."""
    place = tmp_path / "drawings"
    place.write_text("mine")
    with pytest.raises(NotADirectoryError, match="give the name of a folder"):
        save_all(place, {"one.txt": "new"})
    assert place.read_text() == "mine"
