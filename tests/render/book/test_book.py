"""The book read back by another reader: pages, words, fonts, room on the page, the same bytes twice."""

import io
import re
from datetime import date
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from pypdf import PdfReader
from pypdf.generic import IndirectObject

from brimful.render.book.blocks import MARGIN, POINTS, SOFT_BREAK, Desk, Style, soft
from brimful.render.book.catch import catch_minutes, caught_l
from brimful.render.book.make import book_data, book_pdf
from brimful.render.book.tags import code_words
from brimful.render.drawings.scene import Scene
from brimful.services import example, see

TODAY = date(2026, 1, 1)
LONG = "Nebuchadnezzar" * 12


def seen(path: Path) -> Scene:
    """A plan's scene, whole."""
    answer = see(path, today=TODAY)
    assert answer.scene is not None, answer.findings
    return answer.scene


@pytest.fixture(scope="module")
def demo() -> Scene:
    """The demo, whole."""
    return seen(example("alder_point_landing"))


def text_of(pdf: bytes) -> str:
    """Every word of a book, soft breaks left out."""
    pages = pdfium.PdfDocument(pdf)
    return "\n".join(page.get_textpage().get_text_range() for page in pages).replace(SOFT_BREAK, "")


def overflowing(pdf: bytes) -> list[str]:
    """Boxes of text that reach outside the margins of their page; the foot of the page may stand in its margin."""
    out: list[str] = []
    for number, page in enumerate(pdfium.PdfDocument(pdf), 1):
        wide, high = page.get_size()
        words = page.get_textpage()
        for i in range(words.count_rects()):
            left, bottom, right, top = words.get_rect(i)
            if left < MARGIN - 2 or right > wide - MARGIN + 6 or bottom < 20 or top > high - MARGIN + 6:
                said = words.get_text_bounded(left, bottom, right, top)
                out.append(f"page {number}: {said!r} from {left:.0f} to {right:.0f}, {bottom:.0f} to {top:.0f}")
    return out


@pytest.mark.parametrize(("paper", "size"), [("letter", 10.0), ("a4", 14.0)])
def test_the_demo_on_paper(demo: Scene, paper: str, size: float) -> None:
    """The right paper, page numbers to the last page, the rows, the times, the test of the day, the labels."""
    pdf = book_pdf(demo, Style(paper, size))
    reader = PdfReader(io.BytesIO(pdf))
    box = reader.pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(POINTS[paper], abs=0.1)
    words = text_of(pdf)
    count = len(reader.pages)
    assert count > 20 and f"{count} / {count}" in words
    for said in (
        "Alder Point landing",
        "What to buy",
        "Cut list",
        "Water test of zone 1",
        "The hottest week",
        "Assumptions and sources",
        "road side 12",
    ):
        assert said in words
    assert not overflowing(pdf)


def test_contents_lead_to_their_pages(demo: Scene) -> None:
    """Each chapter stands in the outline, and its links point into the book."""
    reader = PdfReader(io.BytesIO(book_pdf(demo, Style())))
    titles = [str(chapter["title"]) for chapter in book_data(demo, Style())["chapters"]]  # type: ignore[attr-defined]
    assert [entry.title for entry in reader.outline if not isinstance(entry, list)] == titles
    links = [a for page in reader.pages for a in page.get("/Annots") or ()]
    assert len(links) >= len(titles)


def test_fonts_are_embedded(demo: Scene) -> None:
    """Every font of every page carries its own file."""
    reader = PdfReader(io.BytesIO(book_pdf(demo, Style())))
    names = set()
    for page in reader.pages:
        resources = page["/Resources"].get_object()
        fonts = resources.get("/Font", {})  # type: ignore[attr-defined]
        for reference in fonts.values():
            font = reference.get_object() if isinstance(reference, IndirectObject) else reference
            inner = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
            descriptor = inner["/FontDescriptor"].get_object()
            names.add(str(font["/BaseFont"]))
            assert any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))
    assert any("SourceSansPro" in name for name in names)


def test_the_same_plan_gives_the_same_bytes(demo: Scene) -> None:
    """Set twice, from two readings of the plan, not a byte differs."""
    assert book_pdf(demo, Style()) == book_pdf(seen(example("alder_point_landing")), Style())


@pytest.mark.parametrize("name", ["courthouse_square", "balcony"])
def test_the_other_examples_are_books_too(name: str) -> None:
    """Two zones, or no bucket test: every page is set without a word outside it."""
    pdf = book_pdf(seen(example(name)), Style("a4"))
    assert not overflowing(pdf)


def test_the_catch_is_flow_times_minutes(demo: Scene) -> None:
    """What the page expects in the jug is the design's flow for those minutes, between a glass and a bucket."""
    zone = demo.zones[0][1]
    minutes = catch_minutes(zone)
    weakest = min(c.flow_l_h for c in zone.containers)
    assert caught_l(weakest, minutes) == pytest.approx(weakest * minutes / 60)
    assert 0.5 <= caught_l(weakest, minutes) <= 2.0
    words = text_of(book_pdf(demo, Style()))
    assert f"{caught_l(weakest, minutes) / 0.0295735295625:.0f} fl oz" in words


def test_a_hundred_containers_forty_plants_and_long_names_stay_on_the_page(tmp_path: Path) -> None:
    """Nothing begins outside a page, names come whole, every container has its label."""
    import csv

    from brimful.catalog import catalog as tables

    rows = (Path(tables.__file__).parent / "tables" / "plants.csv").read_text(encoding="utf-8").splitlines()
    keys = [row["key"] for row in csv.DictReader(rows)][:40]
    bed = ", ".join(f'"1 {key}"' for key in keys)
    hostile = "<script>x</script> & #let \\\\ $x$ *b* _u_ שלום".replace("/", "")
    line = f"""apart = "6 ft"
container = {{ shape = "round", top = "44 in", bottom = "30 in", height = "30 in", material = "concrete" }}
plants = [{bed}]
"""
    plan = f"""
title = "{LONG}"
[site]
latitude = 45
[supply]
pressure = "80 psi"
bucket_tests = ["5 gal in 5 s at 60 psi"]
"""
    plan += "".join(f'[[zone]]\nname = "zone {i}"\n' for i in range(6))
    plan += f'[[containers]]\nname = "{LONG}"\nzone = "zone 0"\ncount = 20\n{line}'
    for i in range(1, 5):
        plan += f'[[containers]]\nname = "row {i}"\nzone = "zone {i}"\ncount = 20\n{line}'
    plan += f"""[[containers]]
name = "{hostile}"
zone = "zone 5"
container = {{ shape = "square", top = "44 in", bottom = "30 in", height = "30 in", material = "concrete" }}
plants = ["3 angelonia"]
"""
    path = tmp_path / "plan.toml"
    path.write_text(plan + "\n[site.normals]\ntmax = " + NORMALS, encoding="utf-8")
    pdf = book_pdf(seen(path), Style("letter", 14.0))
    assert not overflowing(pdf)
    words = re.sub(r"\s", "", text_of(pdf))
    assert LONG in words and f"{LONG}20" in words
    assert "<script>x<script>&#let" in words and "*b*_u_" in words


NORMALS = """["5 C", "6 C", "9 C", "13 C", "17 C", "21 C", "25 C", "25 C", "21 C", "15 C", "9 C", "6 C"]
tmin = ["-1 C", "0 C", "2 C", "4 C", "8 C", "11 C", "13 C", "13 C", "10 C", "6 C", "2 C", "0 C"]
"""


def test_a_labels_code_holds_the_containers_address(demo: Scene) -> None:
    """With an address it is that of the container's page, escaped; without one it says the name."""
    desk = Desk(demo, Style(address="https://10.0.0.5:8000/"))
    assert code_words(desk, "water side 3") == "https://10.0.0.5:8000/container/water%20side%203"
    assert code_words(Desk(demo, Style()), "water side 3") == "Alder Point landing: water side 3"


def test_long_words_break_and_others_stay() -> None:
    """Breaks are invisible: without them the words are as they were."""
    assert soft(LONG).replace(SOFT_BREAK, "") == LONG
    assert max(map(len, soft(LONG).split(SOFT_BREAK))) <= 14
    assert soft("purple fountain grass") == "purple fountain grass"


def test_names_in_any_writing_are_printed_or_told(tmp_path: Path) -> None:
    """Hebrew and Arabic names come whole; emoji go, Chinese stands as question marks, and the book says so."""
    plan = example("balcony").read_text(encoding="utf-8").replace('name = "rail"', 'name = "שער 🌺 花"')
    assert "שער" in plan
    path = tmp_path / "plan.toml"
    path.write_text(plan.replace('title = "', 'title = "حديقة '), encoding="utf-8")
    pdf = book_pdf(seen(path), Style())
    words = text_of(pdf)
    assert "שער" in words or "רעש" in words
    assert "حديقة" in words or "ةقيدح" in words
    assert "for which this book has no letter" in re.sub(r"\s+", " ", words)
    assert "for which this book has no letter" not in text_of(book_pdf(seen(example("balcony")), Style()))
    assert not overflowing(pdf)


def used_shares(pdf: bytes) -> list[float]:
    """How far down each page something stands, the foot of the page left aside, as a share of the room."""
    shares = []
    for page in pdfium.PdfDocument(pdf):
        high = page.get_size()[1]
        bottoms = [bottom for _, bottom, _, _ in (one.get_bounds() for one in page.get_objects(max_depth=1))]
        inside = [bottom for bottom in bottoms if MARGIN - 2 <= bottom < high]
        shares.append((high - MARGIN - min(inside, default=high - MARGIN)) / (high - 2 * MARGIN))
    return shares


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", ["alder_point_landing", "courthouse_square", "balcony"])
def test_no_page_is_nearly_empty(name: str, paper: str) -> None:
    """Every page but the last is filled to an eighth at least, and the book has no more pages than thirty."""
    shares = used_shares(book_pdf(seen(example(name)), Style(paper)))
    assert len(shares) <= 30
    assert min(shares[:-1]) > 1 / 8, [round(share, 2) for share in shares]


def test_every_chapter_of_the_contents_is_on_its_page(demo: Scene) -> None:
    """The outline's page of each chapter carries the chapter's heading."""
    reader = PdfReader(io.BytesIO(book_pdf(demo, Style())))
    for entry in reader.outline:
        assert not isinstance(entry, list)
        number = reader.get_destination_page_number(entry)
        assert number is not None
        words = re.sub(r"\s+", " ", reader.pages[number].extract_text()).replace(SOFT_BREAK, "")
        assert re.sub(r"\s+", " ", str(entry.title)).replace(SOFT_BREAK, "") in words


def test_the_year_that_a_plan_leaves_out_is_told() -> None:
    """Without a year in the plan the book says which one it took, and where from; with one it says nothing."""
    words = re.sub(r"\s+", " ", text_of(book_pdf(seen(example("balcony")), Style())))
    assert "Year of planting: 2026" in words and "today's date" in words.replace("’", "'")
