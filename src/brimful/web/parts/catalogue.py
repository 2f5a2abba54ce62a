"""What can be carried away of a plan: every file by its name, and how it is made."""

from collections.abc import Callable, Iterator
from datetime import UTC, datetime

from brimful.design.care.model import Care
from brimful.records import record
from brimful.render.drawings.scene import Scene
from brimful.web.bench import Sight

Make = Callable[[], str | bytes]
LARGE_PT = 14.0
BOOKS = (
    ("book-letter.pdf", "The book, on Letter paper", "letter", None),
    ("book-letter-large.pdf", "The book in large print, on Letter paper, to read outdoors", "letter", LARGE_PT),
    ("book-a4.pdf", "The book, on A4 paper", "a4", None),
    ("book-a4-large.pdf", "The book in large print, on A4 paper, to read outdoors", "a4", LARGE_PT),
)
LISTS = (
    ("order.xlsx", "The order as a spreadsheet that reckons: put in your own prices", "shop", "order.xlsx"),
    ("order.csv", "The order as a plain table", "shop", "order.csv"),
    ("cut-list.txt", "The cut list, to tick", "shop", "cut-list.txt"),
    ("set-out.csv", "The set-out by tape and level", "work", "set-out.csv"),
    ("schedule.csv", "Who does what in the build", "work", "schedule.csv"),
    ("feed.csv", "What goes in the tank, day by day", "feed", "feed.csv"),
    ("calendar.ics", "The season's tasks, for your calendar", "work", "season.ics"),
)
TEXTS = (
    ("shop", "What to buy"),
    ("work", "Build and season's work"),
    ("feed", "Feed"),
)


@record
class File:
    """A file to carry away: its name, what it is, and how it is made."""

    name: str
    words: str
    make: Make


@record
class Shelf:
    """Files of one kind."""

    title: str
    files: tuple[File, ...]


def offered(sight: Sight, address: str = "") -> tuple[Shelf, ...]:
    """Every file that can be made of a plan as it stands in sight; `address` is the plan's page, for labels' codes."""
    scene = sight.scene
    assert scene is not None
    drawings = File("drawings.zip", "All drawings and charts", lambda: drawings_zip(scene))
    shelves = (
        Shelf("To print", (*_books(scene, address), drawings)),
        Shelf("For the shop, the crew and the calendar", tuple(_lists(sight, scene.care))),
        Shelf("For other programs", tuple(_figures(sight, scene))),
    )
    return tuple(shelf for shelf in shelves if shelf.files)


def _books(scene: Scene, address: str) -> Iterator[File]:
    """The plan's own paper first."""
    from brimful.services import BookWish, book_bytes

    usual = "a4" if scene.design.units == "metric" else "letter"
    for name, words, paper, size in sorted(BOOKS, key=lambda one: one[2] != usual):
        wish = BookWish(paper, size, address)
        yield File(name, words, lambda wish=wish: book_bytes(scene, wish))  # type: ignore[misc]


def _lists(sight: Sight, care: Care | None) -> Iterator[File]:
    from brimful.render.exports.tables import supplier_orders

    if care is None:
        return
    for name, words, part, file in LISTS:
        yield File(name, words, _care_file(sight, care, part, file))
    for name, text in supplier_orders(care).items():
        supplier = name.removeprefix("order-").removesuffix(".txt").replace("-", " ")
        yield File(name, f"The order in words for: {supplier}", lambda text=text: text)  # type: ignore[misc]


def _figures(sight: Sight, scene: Scene) -> Iterator[File]:
    from brimful.services import design_files, season_files

    season, care = scene.season, scene.care
    yield File("design.json", "The design with the solved network",
               lambda: design_files(scene.design, sight.findings)["design.json"])  # fmt: skip
    yield File("summary.txt", "The design as text",
               lambda: design_files(scene.design, sight.findings)["summary.txt"])  # fmt: skip
    if season is not None:
        yield File("season.json", "The season", lambda: season_files(season, sight.findings)["season.json"])
        yield File("season.txt", "The season as text", lambda: season_files(season, sight.findings)["season.txt"])
    for part, words in TEXTS if care is not None else ():
        assert care is not None
        yield File(f"{part}.json", words, _care_file(sight, care, part, f"{part}.json"))
        yield File(f"{part}.txt", f"{words} as text", _care_file(sight, care, part, f"{part}.txt"))


def _care_file(sight: Sight, care: Care, part: str, file: str) -> Make:
    from brimful.services import care_files

    changed = datetime.fromtimestamp(sight.path.stat().st_mtime, UTC)
    return lambda: care_files(care, sight.findings, part, changed)[file]


def drawings_zip(scene: Scene) -> bytes:
    """All drawings and charts in one file; the same plan gives the same bytes."""
    import io
    import zipfile

    from brimful.services import drawing_files

    page = io.BytesIO()
    with zipfile.ZipFile(page, "w", zipfile.ZIP_DEFLATED) as folder:
        for name, svg in drawing_files(scene):
            folder.writestr(zipfile.ZipInfo(name), svg, zipfile.ZIP_DEFLATED)
    return page.getvalue()
