"""The lenses: each says its sentences, marks every container, shows the design's own figures, and needs no script."""

import io
import threading
import zipfile
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from urllib.parse import quote

import pytest
from starlette.requests import Request
from starlette.testclient import TestClient
from tests.cli.bad_plans import GOOD
from tests.design.plans import EXAMPLES, FIXED
from tests.web.reading import Read, read_page
from tests.web.visitor import plan_in, until_done, visiting

from brimful import services
from brimful.design.model import ZoneWorked
from brimful.quantities import Dimension, in_unit, show, unit_of
from brimful.render.care.page import money
from brimful.render.drawings.scene import Scene
from brimful.services import example, see
from brimful.web.chosen import peak_of, shares_of
from brimful.web.pages import PAGES, keep, row
from brimful.web.parts.downloads import reached_at

LENSES = [page.key for page in PAGES if page.key != "notes"]
HOSTILE = "<img src=x onerror=alert(1)>\"'&{{7*7}}"
HOSTILE_PLAN = FIXED.replace('name = "row"', f"name = '''{HOSTILE}'''").replace(
    'units = "US"', f"units = \"US\"\ntitle = '''{HOSTILE}'''"
)
ALONE = GOOD.replace("count = 3", "count = 1").replace('apart = "0.6 m"\n', "")
BARE = GOOD.replace('plants = ["1 angelonia", "2 zonal geranium", "2 calibrachoa"]\n', "")
MOST_BYTES = 300_000
EDITOR = ("edit", "notes")
"""Pages that others build."""


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """A visitor of the examples, of a plan with hostile names, of one without plants or weather, of one unsound."""
    folder = tmp_path_factory.mktemp("plans")
    own = [
        plan_in(folder, "hostile.toml", HOSTILE_PLAN),
        plan_in(folder, "bare.toml", BARE),
        plan_in(folder, "alone.toml", ALONE),
        plan_in(folder, "unsound.toml", GOOD.replace('"0.6 m"', '"31 psi"')),
    ]
    with visiting(*(example(name) for name in EXAMPLES), *own) as one:
        for name in (*EXAMPLES, "hostile", "bare"):
            one.get(f"/p/{name}/")
        for name in (*EXAMPLES, "hostile", "bare"):
            until_done(one, f"/p/{name}/", 180)
        yield one


@pytest.fixture(scope="module")
def scenes() -> dict[str, Scene]:
    """The examples worked out apart from the page."""
    found = {name: see(example(name)).scene for name in EXAMPLES}
    return {name: scene for name, scene in found.items() if scene is not None}


def page_of(client: TestClient, address: str) -> Read:
    """A page that must be there, read."""
    said = client.get(address)
    assert said.status_code == 200, (address, said.text[-500:])
    assert len(said.content) < MOST_BYTES, (address, len(said.content))
    return read_page(said.text)


def ids_of(scene: Scene) -> list[str]:
    """Every container of a scene."""
    return [name for one in scene.rows for name in one.spec.ids]


@pytest.mark.parametrize("lens", LENSES)
@pytest.mark.parametrize("name", EXAMPLES)
def test_every_lens_answers_first_and_marks_every_container(
    client: TestClient, scenes: dict[str, Scene], name: str, lens: str
) -> None:
    """A lens opens with a sentence, and every container of the run says something through it."""
    read = page_of(client, f"/p/{name}/{lens}")
    assert read.answer and all(words.endswith(".") for words in read.answer)
    assert list(read.marks) == ids_of(scenes[name])
    assert all(read.marks.values())
    assert read.scripts == 0
    if lens != "doubts":
        assert [link for link in read.links if "/explain/" in link]


@pytest.mark.parametrize("lens", LENSES)
def test_a_container_that_is_chosen_is_spoken_of_alone(client: TestClient, lens: str) -> None:
    """Rows other than that of the chosen container are in no table."""
    read = page_of(client, f"/p/alder_point_landing/{lens}?c=gate%202")
    cells = [cell for line in read.rows for cell in line]
    assert not any(
        cell.startswith(("water side", "road side")) and "tape" not in cell for cell in cells if lens != "doubts"
    )
    assert "gate 2" in read.words


def test_a_container_that_is_not_there_counts_as_none(client: TestClient) -> None:
    """An address with a strange container shows all of them."""
    asked, all_of_them = (page_of(client, f"/p/balcony/water{more}") for more in ("?c=rail%2099", ""))
    assert asked.words == all_of_them.words


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_picture_and_every_link_of_every_lens_answers(client: TestClient, name: str) -> None:
    """Pictures for the desk and for the phone are drawings with words for those who do not see them."""
    pages = [page_of(client, f"/p/{name}/{lens}{more}") for lens in LENSES for more in ("", "?week=0", "?week=16")]
    pictures = {picture for read in pages for picture in read.pictures}
    assert pictures and all(said for _, said in pictures)
    for address, _ in pictures:
        said = client.get(address)
        assert said.status_code == 200 and said.headers["content-type"].startswith("image/svg"), address
    links = {link.partition("#")[0] for read in pages for link in read.links}
    home = f"/p/{name}/"
    within = sorted(link for link in links if link.startswith(home) and not link.removeprefix(home).startswith(EDITOR))
    others = [link for link in within if "/download/" not in link and "/explain/" not in link]
    chosen = [link for link in others if "c=" in link or "/container/" in link]
    shown = [link for link in others if link not in chosen] + chosen[::17]
    assert not [link for link in shown if client.get(link).status_code != 200]


@pytest.mark.parametrize("name", EXAMPLES)
def test_water_shows_the_flow_of_the_design(client: TestClient, scenes: dict[str, Scene], name: str) -> None:
    """Flow in the table and in the mark is the design's, in the plan's units, and what is far off is told in words."""
    scene = scenes[name]
    read = page_of(client, f"/p/{name}/water")
    table = {line[0]: line for line in read.rows if line}
    for _, zone in scene.zones:
        for one in shares_of(zone, peak_of(zone)):
            number, unit = table[one.water.container][1].replace(",", "").split(" ", 1)
            exact = in_unit(one.water.flow_l_h, Dimension.FLOW, scene.system, small=True)
            assert unit == unit_of(Dimension.FLOW, scene.system, small=True)
            assert abs(float(number) - exact) <= 0.5 * 10 ** -len(number.partition(".")[2]) + 1e-9
            assert table[one.water.container][4] == show(one.gets_l_day, Dimension.VOLUME, scene.system)
            assert read.marks[one.water.container].split()[0] == f"{exact:.1f}"
            assert ("%" in read.marks[one.water.container]) == (not 0.90 <= one.share <= 1.15)


@pytest.mark.parametrize("name", EXAMPLES)
def test_shares_of_a_zone_add_up_to_its_water(scenes: dict[str, Scene], name: str) -> None:
    """What the containers get in a day is together what the zone draws in that day."""
    for _, zone in scenes[name].zones:
        for time in zone.run_times:
            total = sum(one.gets_l_day for one in shares_of(zone, time))
            assert total == pytest.approx(time.zone_l_day, rel=1e-9)
        assert _rows_agree(zone)


def _rows_agree(zone: ZoneWorked) -> bool:
    """The container that a row is told by gets what the row is told to get."""
    peak = peak_of(zone)
    assert peak is not None
    shares = shares_of(zone, peak)
    return all(
        min(one.gets_l_day for one in shares if one.water.row == told.row) - 1e-9
        <= told.gets_l_day
        <= max(one.gets_l_day for one in shares if one.water.row == told.row) + 1e-9
        for told in peak.rows
    )


@pytest.mark.parametrize("name", EXAMPLES)
def test_weeks_of_water_and_keep_are_the_seasons(client: TestClient, scenes: dict[str, Scene], name: str) -> None:
    """Starts, minutes and litres of each week are those of the season."""
    scene = scenes[name]
    assert scene.season is not None
    water = page_of(client, f"/p/{name}/water")
    for zone in scene.season.zones:
        for week in zone.weeks:
            starts, minutes = week.starts_per_day_count or "–", week.minutes_per_start or "–"
            litres = show(week.zone_l, Dimension.VOLUME, scene.system) if week.zone_l else "–"
            assert any(line[:4] == [week.from_day, str(starts), str(minutes), litres] for line in water.rows if line)


@pytest.mark.parametrize("name", EXAMPLES)
def test_make_shows_what_is_bought_and_what_it_weighs(client: TestClient, scenes: dict[str, Scene], name: str) -> None:
    """Every line of the order stands there with its cost, and their sum; each container with its weight."""
    scene = scenes[name]
    read = page_of(client, f"/p/{name}/make")
    assert scene.care is not None and scene.care.order is not None
    table = {line[0]: line for line in read.rows if line}
    for item in scene.care.order.items:
        cost = "no price" if item.cost_money is None else money(item.cost_money, item.currency)
        assert table[item.name][-1] == cost
    assert money(scene.care.order.cost_money, scene.care.order.currency) in read.words
    for one in scene.rows:
        assert table[one.spec.name][4] == show(one.worked.weight_saturated_kg, Dimension.MASS, scene.system)


@pytest.mark.parametrize("name", EXAMPLES)
def test_cautions_stand_at_their_steps(client: TestClient, scenes: dict[str, Scene], name: str) -> None:
    """Every caution of every step is on Make, and who decides."""
    words, scene = page_of(client, f"/p/{name}/make").words, scenes[name]
    assert scene.care is not None and scene.care.build is not None
    cautions = {c for card in scene.care.build.cards for step in card.steps for c in step.cautions}
    assert cautions
    assert all(c.text in words and f"Decides: {c.decides}" in words for c in cautions)


@pytest.mark.parametrize("name", EXAMPLES)
def test_plants_stand_with_letter_count_and_a_swap(client: TestClient, scenes: dict[str, Scene], name: str) -> None:
    """Every taxon of the plan is named with its letter, and leads to what can stand in for it."""
    read, scene = page_of(client, f"/p/{name}/plants"), scenes[name]
    for letter, taxon in scene.letters.items():
        assert any(line[0] == letter and line[1].startswith(taxon.common_name) for line in read.rows if line)
        assert f"/p/{name}/swap/{quote(taxon.key)}" in read.links


def test_growth_follows_the_week(client: TestClient, scenes: dict[str, Scene]) -> None:
    """The mark of a container is the height of its tallest plant at the week asked for."""
    scene = scenes["courthouse_square"]
    for week in (0, 4, 8, 12, 16):
        read = page_of(client, f"/p/courthouse_square/plants?week={week}")
        tallest = max(plant.stands[week].height_m for plant in scene.rows[0].plants)
        assert read.marks["steps 1"] == f"{tallest / 0.0254:.0f} in"
        assert any(f"run-week-{week:02d}" in src for src, _ in page_of(client, f"/p/balcony/?week={week}").pictures)


@pytest.mark.parametrize("week", ["", "-1", "99", "x", "1e3", "９"])
def test_a_week_that_makes_no_sense_counts_as_not_asked(client: TestClient, week: str) -> None:
    """The page is that of the usual week."""
    asked, usual = (page_of(client, f"/p/balcony/{more}") for more in (f"?week={quote(week)}", ""))
    assert asked.words == usual.words


@pytest.mark.parametrize("name", EXAMPLES)
def test_findings_and_assumptions_all_stand_on_doubts(client: TestClient, scenes: dict[str, Scene], name: str) -> None:
    """Each finding with its remedy and the field that mends it, each assumption with its source."""
    read, scene = page_of(client, f"/p/{name}/doubts"), scenes[name]
    for finding in scene.design.findings:
        assert " ".join(finding.message[1:].split()) in read.words
        assert " ".join(finding.remedy.split()) in read.words
        if finding.where.field:
            assert f"/p/{name}/edit?field={quote(finding.where.field, safe='')}" in read.links
    for one in scene.design.assumptions:
        assert " ".join(f"{one.what}: {one.value}".split()) in read.words


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_figure_is_explained(client: TestClient, name: str) -> None:
    """The list names every working; each leads to a page with its source; numbers on the lenses lead there too."""
    listed = [link for link in page_of(client, f"/p/{name}/explain").links if "/explain/" in link]
    assert len(listed) == len(set(listed)) > 40
    for link in listed[:: 1 + len(listed) // 25]:
        read = page_of(client, link)
        assert {"What went in", "Source"} <= set(read.headings), link
    numbers = {
        link for lens in ("water", "make", "keep") for link in page_of(client, f"/p/{name}/{lens}").links
        if "/explain/" in link
    }  # fmt: skip
    assert len(numbers) > 20
    assert numbers <= set(listed)


def test_an_explanation_gives_value_formula_inputs_and_source(client: TestClient) -> None:
    """The room for mix is told with its unit, its formula and what went in."""
    _, opened, _ = services.open_plan(example("balcony"))
    assert opened is not None
    read = page_of(client, "/p/balcony/explain/rows/rail/fill_volume_l")
    assert f"{opened.design.rows[0].fill_volume_l:.5g} L." in read.answer[0]
    held = page_of(client, "/p/balcony/explain/rows/rail/water_held_l")
    assert f"water held: {opened.design.rows[0].water_held_l:.5g} L." in held.answer[0]
    assert {"Formula", "What went in", "Source"} <= set(read.headings)
    assert client.get("/p/balcony/explain/rows/rail/nothing").status_code == 404


def test_the_page_of_one_container(client: TestClient, scenes: dict[str, Scene]) -> None:
    """A label's address shows what the container is, its water, its plants and the steps that build it."""
    scene = scenes["alder_point_landing"]
    read = page_of(client, "/p/alder_point_landing/container/gate%202")
    assert scene.rows[2].worked.container in read.answer[0]
    assert scene.care is not None and scene.care.build is not None
    card = next(card for card in scene.care.build.cards if "gate 2" in card.containers)
    assert all(step.name in read.words for step in card.steps)
    assert all(one.name in read.words for one in scene.rows[2].worked.plants)
    assert client.get("/p/alder_point_landing/container/gate%203").status_code == 404


def test_stand_ins_are_those_of_the_services(client: TestClient) -> None:
    """The page of a swap ranks as the service does."""
    _, opened, _ = services.open_plan(example("balcony"))
    assert opened is not None
    best = services.swaps_for(opened, "angelonia")[0].substitutes[0]
    read = page_of(client, "/p/balcony/swap/angelonia")
    assert best.name in read.answer[0]
    assert any(line[0].startswith(best.name) for line in read.rows if line)
    assert client.get("/p/balcony/swap/no-such-plant").status_code == 404


def test_every_file_offered_can_be_carried_away(client: TestClient) -> None:
    """Each has content and a safe name, and comes from memory alone."""
    links = [link for link in page_of(client, "/p/balcony/").links if "/download/" in link]
    assert len(links) > 15
    for link in links:
        said = client.get(link)
        assert said.status_code == 200 and said.content, link
        assert f'filename="{link.rpartition("/")[2]}"' in said.headers["content-disposition"]


@pytest.mark.parametrize(
    "name", ["..%2f..%2fetc%2fpasswd", "balcony.toml", "%2e%2e", "book.pdf%00", "season.ics", "nul", "%00"]
)
def test_nothing_but_what_is_offered_can_be_carried_away(client: TestClient, name: str) -> None:
    """A name that is not offered is not looked for anywhere."""
    assert client.get(f"/p/balcony/download/{name}").status_code == 404


def test_files_are_those_that_the_commands_write(client: TestClient, tmp_path: Path) -> None:
    """Design and drawings in the browser are to the byte what the services write into a folder."""
    scene = see(example("balcony")).scene
    assert scene is not None
    services.write_drawings(scene, tmp_path)
    with zipfile.ZipFile(io.BytesIO(client.get("/p/balcony/download/drawings.zip").content)) as folder:
        assert sorted(folder.namelist()) == sorted(path.name for path in tmp_path.iterdir())
        for name in folder.namelist():  # charts number their clips anew each time
            assert name.startswith("chart-") or folder.read(name) == (tmp_path / name).read_bytes()
    data = services.design_files(scene.design, scene.design.findings)["design.json"]
    assert client.get("/p/balcony/download/design.json").text == data


def test_the_calendar_holds_every_task(client: TestClient, scenes: dict[str, Scene]) -> None:
    """One event a task of the season, read back by a library."""
    from icalendar import Calendar

    care = scenes["balcony"].care
    assert care is not None and care.season is not None
    book = Calendar.from_ical(client.get("/p/balcony/download/calendar.ics").content)
    days = sorted(event["dtstart"].dt for event in book.walk("VEVENT"))
    assert days == sorted(task.day for task in care.season.tasks)


def test_this_week_is_told_in_season(
    client: TestClient, scenes: dict[str, Scene], monkeypatch: pytest.MonkeyPatch
) -> None:
    """On a day of July the timer's setting of that week is told first, and its line in the table is marked."""
    scene = scenes["alder_point_landing"]
    assert scene.season is not None and scene.care is not None and scene.care.season is not None
    day = scene.care.season.planted + timedelta(weeks=9, days=3)
    monkeypatch.setattr(keep, "today", lambda: day)
    monkeypatch.setattr(row, "today", lambda: day)
    week = scene.season.zones[0].weeks[9]
    assert week.minutes_per_start > 0
    for lens in ("", "keep"):
        said = page_of(client, f"/p/alder_point_landing/{lens}").answer[0]
        assert said.startswith("This week") and f"{week.minutes_per_start} minute" in said
    read = page_of(client, "/p/alder_point_landing/keep")
    assert [line[0].endswith("now") for line in read.rows if line].count(True) == 1
    assert read.marks["gate 1"].startswith(f"{week.minutes_per_start} min")


@pytest.mark.parametrize("lens", [*LENSES, "explain", "container/" + quote(f"{HOSTILE} 1", safe="")])
def test_hostile_names_are_only_words(client: TestClient, lens: str) -> None:
    """A name made to be taken for script stands there as it is written, and runs nothing."""
    said = client.get(f"/p/hostile/{lens}")
    assert said.status_code == 200
    assert "<img src=x" not in said.text and "&lt;img src=x" in said.text
    read = read_page(said.text)
    assert read.scripts == 0
    assert HOSTILE in read.words
    assert [name for name in read.marks if name.startswith(HOSTILE)]


@pytest.mark.parametrize("lens", LENSES)
def test_a_plan_without_plants_or_weather_says_what_will_stand_there(client: TestClient, lens: str) -> None:
    """Every lens answers, and where something is missing it offers the next step."""
    read = page_of(client, f"/p/bare/{lens}")
    assert read.answer and len(read.marks) == 3
    if lens in ("water", "plants", "keep"):
        assert "will stand here" in read.words
        assert [link for link in read.links if "/edit?field=" in link]


@pytest.mark.parametrize("lens", LENSES)
def test_a_single_container_has_its_rows_name(client: TestClient, lens: str) -> None:
    """A row of one is told by its own name, without a number."""
    assert list(page_of(client, f"/p/alone/{lens}").marks) == ["rail"]
    assert page_of(client, "/p/alone/container/rail").answer[0].startswith("rail:")


@pytest.mark.parametrize("lens", LENSES)
def test_an_unsound_plan_says_what_to_mend(client: TestClient, lens: str) -> None:
    """Every lens of a plan that cannot be worked out shows the findings and where to mend them."""
    read = page_of(client, f"/p/unsound/{lens}")
    assert "cannot be worked out yet" in read.answer[0]
    assert '"31 psi" is a pressure' in read.words
    assert [link for link in read.links if "/edit?field=containers.1.apart" in link]


def test_what_is_not_worked_out_yet_will_come(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """While the longer work runs every lens answers at once, and says that the rest will come."""
    go_on = threading.Event()
    work = services.work_beside

    def slowly(*given: object, **more: object) -> object:
        go_on.wait(60)
        return work(*given, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(services, "work_beside", slowly)
    with visiting(plan_in(tmp_path)) as client:
        for lens in LENSES:
            read = page_of(client, f"/p/rail/{lens}")
            assert read.answer and len(read.marks) == 3
            assert "will come" in read.words
        go_on.set()
        until_done(client, "/p/rail/")
        assert "order.xlsx" in page_of(client, "/p/rail/").words


@pytest.mark.parametrize(
    ("host", "address"),
    [
        ("127.0.0.1:8477", ""),
        ("localhost:8477", ""),
        ("[::1]:8477", ""),
        ("shed.local:8477", "http://shed.local:8477/p/north%20side"),
    ],
)
def test_labels_lead_to_where_the_page_is_reached(host: str, address: str) -> None:
    """The codes of a book open a container's page only where a phone can reach it."""
    scope = {
        "type": "http", "method": "GET", "scheme": "http", "path": "/p/north side/download/book-a4.pdf",
        "query_string": b"", "headers": [(b"host", host.encode())], "path_params": {"plan": "north side"},
    }  # fmt: skip
    assert reached_at(Request(scope)) == address


def test_what_is_found_and_done_is_said_in_names_that_people_read(client: TestClient, scenes: dict[str, Scene]) -> None:
    """No key of the plant table, no dotted field, and no zone named twice over stands in the words of a page."""
    for name in EXAMPLES:
        keys = {plant.key for row in scenes[name].rows for one in row.spec.plants for plant in (one.plant,)}
        keys = {key for key in keys if "-" in key}
        for lens in ("", "plants", "doubts"):
            words = page_of(client, f"/p/{name}/{lens}").words
            assert not [key for key in keys if key in words], (name, lens)
            assert 'zone "zone' not in words
            assert "containers.1" not in words and "planting_day" not in words, (name, lens)


def test_each_filling_of_the_tank_stands_once(client: TestClient, scenes: dict[str, Scene]) -> None:
    """Feedings that are alike are one line, which tells the first day, the last, and how far apart they are."""
    care = scenes["alder_point_landing"].care
    assert care is not None and care.feed is not None
    first, last = care.feed.tanks[0].day, care.feed.tanks[-1].day
    lines = [line[0] for line in page_of(client, "/p/alder_point_landing/keep").rows if "every 7 days" in line[0]]
    assert lines == [f"{first.day} {first:%b} to {last.day} {last:%b}, every 7 days"]
