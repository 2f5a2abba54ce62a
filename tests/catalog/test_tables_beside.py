"""The user's own tables beside the plan: they add, they replace, and every problem is told at once with its line."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from brimful.catalog import TABLES, TableError, load
from brimful.catalog.cells import Column, columns_of
from brimful.errors import CatalogError

MIX_HEADINGS = "key,name,theta_r,theta_s,alpha_per_m,n,dry_bulk_density_kg_m3,bag_l,source,certainty"
MIX = "leaf-mould,leaf mould,0.1,0.8,20,1.5,200,50,measured at home,read"


def problems_of(folder: Path) -> list[str]:
    """Every problem of the tables in a folder, as a person sees it."""
    with pytest.raises(CatalogError) as caught:
        load(folder)
    assert isinstance(caught.value, TableError)
    lines = str(caught.value).splitlines()
    assert len(lines) == len(caught.value.problems)
    return lines


def write(folder: Path, table: str, *lines: str) -> Path:
    """A table beside the plan."""
    path = folder / f"brimful-{table}.csv"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def test_no_tables_beside(tmp_path: Path) -> None:
    """A folder without tables gives ours."""
    assert list(load(tmp_path).mixes) == list(load().mixes)


def test_a_row_is_added(tmp_path: Path) -> None:
    """A new key is a new row; ours stay."""
    write(tmp_path, "mixes", MIX_HEADINGS, MIX)
    mixes = load(tmp_path).mixes
    assert set(mixes) == {*load().mixes, "leaf-mould"}
    assert mixes["leaf-mould"].retention.theta_s == 0.8
    assert mixes["leaf-mould"].bag_sizes_l == ()


def test_a_row_is_replaced(tmp_path: Path) -> None:
    """A key of ours replaces our row whole, in its place."""
    write(tmp_path, "mixes", MIX_HEADINGS, MIX.replace("leaf-mould", "peat-perlite"))
    mixes = load(tmp_path).mixes
    assert list(mixes) == list(load().mixes)
    assert mixes["peat-perlite"].theta_r == 0.1
    assert mixes["peat-perlite"].source == "measured at home"


def test_units_of_the_users_choice(tmp_path: Path) -> None:
    """A heading may end in another unit of the same kind: inches, psi, gallons an hour."""
    write(
        tmp_path,
        "emitters",
        "key,name,law,flow_gph,pressure_psi,exponent,most_pressure_psi,variation,source,certainty",
        "mine,mine,power,1,15,0.5,40,0.05,the packet,read",
    )
    mine = load(tmp_path).emitters["mine"]
    assert mine.flow_l_h == pytest.approx(3.785412, abs=1e-6)
    assert mine.pressure_m == pytest.approx(10.546, abs=1e-3)


def test_comments_blank_lines_and_a_byte_order_mark(tmp_path: Path) -> None:
    """A spreadsheet's byte order mark, blank lines and lines that start with # and a blank are no rows."""
    path = write(tmp_path, "mixes", MIX_HEADINGS, "# from the heap", "", ",,,,,,,,,", MIX)
    path.write_text("\ufeff" + path.read_text(encoding="utf-8"), encoding="utf-8")
    assert "leaf-mould" in load(tmp_path).mixes


def test_all_problems_at_once(tmp_path: Path) -> None:
    """Bad number, out of range, bad word, missing source, duplicate key, short line: each with file, line, expected."""
    path = write(
        tmp_path,
        "mixes",
        MIX_HEADINGS,
        MIX,
        MIX.replace("0.8", "lots"),
        MIX.replace(",20,", ",-3,"),
        MIX.replace(",read", ",sure"),
        MIX.replace("measured at home", ""),
        MIX,
        "short,line",
        MIX.replace("leaf-mould", "dry").replace("0.1,0.8", "0.8,0.8"),
    )
    lines = problems_of(tmp_path)
    for line, words in {
        3: 'theta_s "lots" was given; expected a plain number',
        4: 'alpha_per_m "-3" was given; expected 0.1 to 500',
        5: "expected one of read, memory, practice, calculated, assumed",
        6: "source is empty",
        7: 'key "leaf-mould" is given twice, first in line 2',
        8: "2 cells were given; expected 10",
        9: "expected theta_r below theta_s",
    }.items():
        assert any(text.startswith(f"{path}:{line}: ") and words in text for text in lines), (line, lines)
    assert len(lines) == 7


def test_problems_of_two_tables_together(tmp_path: Path) -> None:
    """Problems are gathered over all tables, an unknown table among them."""
    write(tmp_path, "mixes", MIX_HEADINGS, MIX.replace("0.8", "x"))
    write(tmp_path, "tubes", "key", "a")
    write(tmp_path, "fittings", "key,name,loss_k,source,certainty", "a,b,nan,c,read", "b,b,inf,c,read")
    lines = problems_of(tmp_path)
    assert len(lines) == 4
    assert any('no table "tubes"' in line for line in lines)


def test_unknown_and_missing_columns(tmp_path: Path) -> None:
    """A misspelt heading is named with the one that is meant; a column that must be there is asked for."""
    write(tmp_path, "mixes", MIX_HEADINGS.replace("theta_s", "theta_z"), MIX)
    lines = problems_of(tmp_path)
    assert any('column "theta_z" is unknown' in line and '"theta_s"' in line for line in lines)
    assert any("the column theta_s is missing" in line for line in lines)


def test_one_column_in_two_units(tmp_path: Path) -> None:
    """The same column in two units is refused."""
    write(tmp_path, "mixes", MIX_HEADINGS + ",bag_gal", MIX + ",3")
    assert any("given twice" in line for line in problems_of(tmp_path))


@pytest.mark.parametrize("heading", ["bag_psi", "bag_", "n_mm", "theta_s_in"])
def test_a_unit_of_another_kind(tmp_path: Path, heading: str) -> None:
    """A heading with a unit of another kind, or on a plain number, is an unknown column."""
    write(tmp_path, "mixes", MIX_HEADINGS + f",{heading}", MIX + ",3")
    assert any(f'column "{heading}" is unknown' in line for line in problems_of(tmp_path))


def test_an_unknown_material(tmp_path: Path) -> None:
    """A container of a material that no table has is told, with the nearest."""
    headings = "key,name,shape,height_in,top_in,bottom_in,material,wall_in,base_in,source,certainty"
    write(tmp_path, "containers", headings, "a,a,round,20,20,16,teracotta,1,1,tape,read")
    assert any('"terracotta"' in line for line in problems_of(tmp_path))


def test_an_impossible_container(tmp_path: Path) -> None:
    """A wall thicker than half the container is told by the geometry itself."""
    headings = "key,name,shape,height_in,top_in,bottom_in,material,wall_in,base_in,source,certainty"
    write(tmp_path, "containers", headings, "a,a,round,20,20,16,terracotta,10,1,tape,read")
    assert any("expected a wall thinner" in line for line in problems_of(tmp_path))


@pytest.mark.parametrize(
    "content",
    [b"", b"\xff\xfe\x00k", b"\x00" * 100, b'key,"na\nme', b"key\n" + b"x" * 200_000, b"," * 100_000, b"x" * 4_100_000],
    ids=["empty", "utf-16", "zeros", "open quote", "long cell", "commas", "too large"],
)
def test_noise(tmp_path: Path, content: bytes) -> None:
    """A file that is no table is told in a sentence."""
    (tmp_path / "brimful-mixes.csv").write_bytes(content)
    assert problems_of(tmp_path)


def test_a_flood_of_problems(tmp_path: Path) -> None:
    """After a hundred problems the rest is not told."""
    write(tmp_path, "mixes", MIX_HEADINGS, *["x,y"] * 5000)
    lines = problems_of(tmp_path)
    assert len(lines) == 101
    assert "more problems" in lines[-1]


def test_a_folder_in_the_way(tmp_path: Path) -> None:
    """A folder with a table's name is told in a sentence."""
    (tmp_path / "brimful-mixes.csv").mkdir()
    assert any("cannot be read" in line for line in problems_of(tmp_path))


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
@given(st.lists(st.text(max_size=12), max_size=12), st.sampled_from(["mixes", "plants", "containers", "driplines"]))
def test_any_text(tmp_path: Path, cells: list[str], table: str) -> None:
    """Any text under right headings is a row or a problem, never another error."""
    path = tmp_path / f"brimful-{table}.csv"
    headings = ",".join(c.heading for c in _columns(table))
    path.write_text(headings + "\n" + ",".join(cells) + "\n", encoding="utf-8", errors="replace")
    try:
        load(tmp_path)
    except TableError as error:
        assert error.problems
    finally:
        path.unlink()


def _columns(table: str) -> list[Column]:
    return list(columns_of(TABLES[table]).values())
