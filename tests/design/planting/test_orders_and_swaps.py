"""Orders, windows and stand-ins of whole plans: one order for all lists, laws of dates, what a swap changes."""

import math
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.design.planting.test_planting_of_plans import desk_of

from brimful.catalog import load
from brimful.design.plant_goods import item_of, plant_price
from brimful.design.planting.days import SiteDays
from brimful.design.planting.desk import PlantingDesk
from brimful.design.planting.effects import Change, effects_of, with_plant
from brimful.design.planting.orders import needed_of, order_cost, orders_of, windows_of
from brimful.design.planting.swaps import NEAR_BOUND_H, sun_swaps_of, swaps_of
from brimful.design.planting.whole import planting_of
from brimful.design.settle.planting import taxon_of
from brimful.domains.planting.light import light_fit
from brimful.domains.planting.order import CLASSES
from brimful.services import PlantingAnswer, example, work_out_care, work_out_planting
from brimful.services.care import care_desk
from brimful.services.opening import open_plan

APRIL = date(2026, 4, 20)
WARM = SiteDays(date(2026, 5, 15), date(2026, 10, 10), 8.0, "known", (20.0,) * 366, APRIL)
MIXED = '1 purple-fountain-grass", "3 geranium-zonal", "4 calibrachoa-trailing", "2 viola", "1 coleus'


def warm(plants: str, **changes: object) -> PlantingDesk:
    """The desk of one container at a place with a last frost on 20 April and warm mix."""
    return replace(desk_of(plants), days=replace(WARM, **changes))  # type: ignore[arg-type]


SINGLY = desk_of("1 angelonia")
STOCKED = """
[stock]
"{item}" = 30

[spares]
plant = "12 %"
"""
TRAYLESS = "key,name,per,price,pack,source,certainty\ngeranium-zonal 4in,,each,3.5,10,a nursery,read\n"


@pytest.mark.parametrize("name", ["alder_point_landing", "courthouse_square", "balcony"])
def test_shop_orders_what_plants_orders(name: str) -> None:
    """Both lists buy each plant in the same trays, for the same money."""
    _same_order(example(name))


def test_shop_and_plants_keep_to_stock_spares_and_prices(tmp_path: Path) -> None:
    """Plants on hand, the plan's spares and the price table's packs count in both lists alike."""
    text = example("balcony").read_text(encoding="utf-8")
    plan = tmp_path / "plan.toml"
    plan.write_text(text + STOCKED.format(item="geranium-zonal 4in"), encoding="utf-8")
    (tmp_path / "brimful-prices.csv").write_text(TRAYLESS, encoding="utf-8")
    bought = _same_order(plan)
    assert bought["geranium-zonal"][1] == 0
    plan.write_text(text, encoding="utf-8")
    assert _same_order(plan)["geranium-zonal"][0] == 10


def _same_order(plan: Path) -> dict[str, tuple[int, int, float | None]]:
    """Plants a pack, packs and cost by taxon, equal in both lists."""
    planting, care = work_out_planting(plan).planting, work_out_care(plan, parts=("shop",)).care
    assert planting is not None
    assert care is not None
    assert care.order is not None
    mine = {one.plant: (one.per_tray_count, one.trays_count, one.cost_money) for one in planting.orders}
    shop = {
        item.key.split(" ")[0]: (item.pack_amount, item.packs_count, item.cost_money)
        for item in care.order.items
        if item.group == "plants"
    }
    assert mine == shop
    return mine


@given(st.integers(0, 60), st.integers(0, 40))
def test_fewer_than_a_tray_are_bought_singly(count: int, more: int) -> None:
    """18 a tray: below that plants are bought one by one, from there in whole trays; more plants never buy fewer."""
    desk = SINGLY
    ball = desk.settled.rows[0].plants[0].root_ball
    price = plant_price(desk.catalog, item_of("angelonia", ball))
    assert price is not None
    costs = [order_cost(desk, "angelonia", ball, n) or 0.0 for n in (count, count + more)]
    wanted = math.ceil(round(1.05 * count, 9))
    assert costs[0] / price.price == (wanted if wanted < 18 else 18 * math.ceil(wanted / 18))
    assert costs[0] <= costs[1]


def test_hardier_plants_go_out_earlier() -> None:
    """The windows of a place stand in the order of its frost classes, each from its class's day on."""
    windows = {one.hardiness: one for one in windows_of(warm(MIXED))}
    assert len(windows) >= 3
    for hardiness, one in windows.items():
        assert date.fromisoformat(one.plant_from) == APRIL + timedelta(days=CLASSES[hardiness][0])
        assert one.held_by == "frost"
        assert one.plant_from < one.plant_until


def test_cold_mix_holds_back_what_wants_warmth() -> None:
    """Mix of 12 °C until 5 June and 20 °C after: petunias wait for it, violas do not; told where too early."""
    mix = tuple(20.0 if 21 <= day < 180 else 12.0 for day in range(366))
    desk = warm('1 petunia-trailing", "1 viola', mix_c=mix)
    petunia, viola = windows_of(desk)
    assert (petunia.plant_from, petunia.held_by) == ("2026-06-07", "mix temperature")
    assert (viola.held_by, viola.plant_from < "2026-05-01") == ("frost", True)
    assert [finding.code for finding in desk.notes.findings] == ["mix-cold"]


def test_planted_before_the_frost_is_past_is_a_warning() -> None:
    """Tender plants set out before the last frost are told once, with the day to wait for."""
    desk = warm('1 petunia-trailing", "1 angelonia', last_frost=date(2026, 5, 20))
    windows_of(desk)
    found = [finding for finding in desk.notes.findings if finding.code == "planted-early"]
    assert found
    assert all(finding.remedy.startswith("Plant from") for finding in found)


def test_spring_dates_do_not_apply_in_autumn() -> None:
    """A planting of autumn gets no window, and no word about one."""
    desk = warm("3 viola", in_autumn=True)
    assert [one.plant_from for one in windows_of(desk)] == [""]
    assert not desk.notes.findings


def test_nothing_known_nothing_told() -> None:
    """Without weather there is no window."""
    (window,) = windows_of(desk_of("1 angelonia"))
    assert (window.plant_from, window.ends) == ("", "")


def test_a_late_order_is_told_between_its_day_and_planting() -> None:
    """After the last day to order and before planting it is said; before and after that it is not."""
    for day, late in ((date(2026, 2, 1), False), (date(2026, 5, 1), True), (date(2026, 6, 1), False)):
        desk = replace(desk_of("4 angelonia"), today=day)
        orders_of(desk)
        assert ("order-late" in {finding.code for finding in desk.notes.findings}) is late


def test_shade_gets_three_stand_ins_that_bear_it() -> None:
    """In two hours of sun each sun plant gets up to three stand-ins of its layer that bear it; shade plants stay."""
    desk = replace(
        desk_of('1 purple-fountain-grass", "3 geranium-zonal", "2 impatiens-walleriana'), sun_h={"tub": (2.0,)}
    )
    swaps = sun_swaps_of(desk)
    assert {swap.plant for swap in swaps} == {"purple-fountain-grass", "geranium-zonal"}
    taxa = {plant.key: plant for plant in desk.catalog.plants.values()}
    for swap in swaps:
        old = _taxon(desk, swap.plant)
        assert len(swap.substitutes) == (3 if swap.plant == "geranium-zonal" else 0)
        for one in swap.substitutes:
            new = taxon_of(replace(desk.settled.rows[0].plants[0], plant=taxa[one.plant]))
            assert new.role == old.role
            assert abs(light_fit(new, 2.0).off_h) <= NEAR_BOUND_H
    assert all(finding.code == "light" and finding.remedy for finding in desk.notes.findings)


def _taxon(desk: PlantingDesk, key: str) -> object:
    return next(taxon_of(spec) for spec in desk.settled.rows[0].plants if spec.plant.key == key)


def test_only_the_containers_in_the_shade_are_named(tmp_path: Path) -> None:
    """Of a row half in the shade of a wall, the containers behind it get stand-ins and the others keep their plants."""
    plan = tmp_path / "plan.toml"
    plan.write_text(HALF_SHADED, encoding="utf-8")
    planting = work_out_planting(plan).planting
    assert planting is not None
    (swap,) = planting.swaps
    assert 0 < len(swap.containers) < 8
    assert "row 8" not in swap.containers
    assert "row 1" in swap.containers
    assert 1 <= len(swap.substitutes) <= 3


HALF_SHADED = """
units = "metric"
[site]
latitude = 45
normals = { tmax = "4 6 11 16 21 24 26 26 21 15 9 5 °C", tmin = "-1 0 3 7 11 15 16 16 12 8 3 0 °C" }
[supply]
pressure = "3 bar"
bucket_tests = ["10 L in 75 s at 1.8 bar"]
[[shade]]
kind = "building"
height = "15 m"
corners = [["-30 m", "-1 m"], ["8 m", "-1 m"], ["8 m", "-12 m"], ["-30 m", "-12 m"]]
[[shade]]
kind = "building"
height = "15 m"
corners = [["-30 m", "1 m"], ["8 m", "1 m"], ["8 m", "12 m"], ["-30 m", "12 m"]]
[[containers]]
name = "row"
count = 8
apart = "3 m"
start = ["0 m", "0 m"]
heading = 90
container = { shape = "round", top = "60 cm", height = "50 cm" }
plants = ["3 zonal geranium"]
"""


def test_a_swap_for_itself_changes_nothing() -> None:
    """The same plant, as many of it: water and bloom do not change."""
    desk = warm('3 geranium-zonal", "4 calibrachoa-trailing')
    row = desk.settled.rows[0]
    now, same = effects_of(desk, Change(row, row.plants[0], 1, ((taxon_of(row.plants[0]), 3),)))
    assert same.water_change_l_day == pytest.approx(0.0)
    assert same.bloom_months == now.bloom_months


def test_a_swap_there_and_back_is_none() -> None:
    """Water after a swap is that of the plan with the other plant in it; what is gained is lost on the way back."""
    desk = warm('3 geranium-zonal", "4 calibrachoa-trailing')
    row, spec = desk.settled.rows[0], desk.settled.rows[0].plants[0]
    lantana = desk.catalog.plants["dahlia-bedding"]
    other = with_plant(row, spec, lantana, 3)
    there = effects_of(desk, Change(row, spec, 1, ((taxon_of(other.plants[0]), 3),)))[1]
    moved = replace(desk, settled=replace(desk.settled, rows=(other,)))
    back = effects_of(moved, Change(other, other.plants[0], 1, ((taxon_of(spec), 3),)))[1]
    assert there.water_change_l_day != 0.0
    assert back.water_change_l_day == pytest.approx(-there.water_change_l_day)
    assert back.bill_change_money == pytest.approx(-(there.bill_change_money or 0.0))


def test_the_bill_after_a_swap_is_the_order_of_the_changed_plan() -> None:
    """The change told is the sum of the changed plan's orders less that of the plan's."""
    _, opened, _ = open_plan(example("alder_point_landing"))
    assert opened is not None
    from brimful.services.planting import planting_desk

    desk = planting_desk(opened, care_desk(opened, None), None)
    swap = next(swap for swap in swaps_of(desk, "angelonia") if len(swap.containers) == 24)
    one = next(one for one in swap.substitutes if one.effect.bill_change_money)
    rows = tuple(
        with_plant(row, spec, desk.catalog.plants[one.plant], one.count) if spec is not None else row
        for row in desk.settled.rows
        for spec in [next((s for s in row.plants if s.plant.key == "angelonia" and row.name in swap.rows), None)]
    )
    changed = replace(desk, settled=replace(desk.settled, rows=rows))
    bills = [
        sum(order_cost(d, plant, ball, count) or 0.0 for (plant, ball), count in needed_of(d).items())
        for d in (desk, changed)
    ]
    assert one.effect.bill_change_money == pytest.approx(bills[1] - bills[0])


def test_a_stand_in_takes_the_front() -> None:
    """Where the plant at the front is replaced, the stand-in stands there; where another is, the front stays."""
    row = warm('3 geranium-zonal", "4 calibrachoa-trailing').settled.rows[0]
    row = replace(row, recipe=replace(row.recipe, front="geranium-zonal"))
    plants = load().plants
    fronts = [with_plant(row, spec, plants["nicotiana"], 3).recipe.front for spec in row.plants]
    assert fronts == ["nicotiana", "geranium-zonal"]


def test_rows_planted_alike_are_answered_once() -> None:
    """Two rows planted alike share one answer that names both and all their containers."""
    answer = work_out_planting(example("alder_point_landing"), swap="geranium-zonal")
    assert [swap.rows for swap in answer.swaps] == [("water side", "road side"), ("gate",)]
    assert [len(swap.containers) for swap in answer.swaps] == [24, 2]


def test_what_must_not_stand_there_does_not_stand_in() -> None:
    """Where animals come no stand-in is poisonous; elsewhere some are."""
    desk = warm("3 geranium-zonal")
    careful = replace(
        desk, plan=desk.plan.model_copy(update={"site": desk.plan.site.model_copy(update={"animals": True})})
    )
    poison = [
        [one.plant for one in swaps_of(d, "geranium-zonal")[0].substitutes if _poisonous(d, one.plant)]
        for d in (desk, careful)
    ]
    assert poison[0]
    assert not poison[1]


def test_a_plant_of_full_sun_is_left_in_more() -> None:
    """In 14 h of sun a plant of full sun is only noted, one of half shade gets stand-ins."""
    desk = replace(desk_of('1 geranium-zonal", "1 begonia-rex'), sun_h={"tub": (14.0,)})
    assert [swap.plant for swap in sun_swaps_of(desk)] == ["begonia-rex"]
    told = {finding.message.partition(" in ")[0]: finding.severity.value for finding in desk.notes.findings}
    assert told == {"zonal geranium": "note", "rex begonia": "warning"}


def _poisonous(desk: PlantingDesk, key: str) -> bool:
    return desk.catalog.plants[key].toxic_to_pets == "yes"


def test_upkeep_of_all_is_the_sum_of_the_rows() -> None:
    """The plan's hours are those of its rows, week by week."""
    planting = work_out_planting(example("alder_point_landing")).planting
    assert planting is not None
    for n, week in enumerate(planting.upkeep):
        rows = [row.upkeep[n] for row in planting.rows]
        assert {one.week for one in rows} == {week.week}
        assert week.trim_h == pytest.approx(sum(one.trim_h for one in rows))
        assert week.visit_h + week.deadhead_h == pytest.approx(sum(one.visit_h + one.deadhead_h for one in rows))


def test_the_coldest_night_is_told_where_it_is_taken_from() -> None:
    """With normals it is a night of the made years; without any weather it is assumed, and both are said."""
    known = work_out_planting(example("balcony")).planting
    assert known is not None
    assert "monthly normals" in known.coldest_taken_as
    assumed = planting_of(desk_of("1 angelonia"), "t", "metric")
    assert "assumed" in assumed.coldest_taken_as


COLOURED = """
[[containers]]
name = "tub"
count = 4
container = {{ shape = "round", top = "60 cm", height = "50 cm" }}
plants = [
    {{ plant = "zonal geranium", count = 3, colour = "{one}" }},
    {{ plant = "zonal geranium", count = 2, colour = "pink" }},
]
"""


def coloured(tmp_path: Path, one: str) -> PlantingAnswer:
    """The planting of four containers with geraniums of a colour beside pink ones."""
    plan = tmp_path / "plan.toml"
    plan.write_text(COLOURED.format(one=one), encoding="utf-8")
    return work_out_planting(plan)


def test_a_plan_that_names_its_colours_is_ordered_and_seen_in_them(tmp_path: Path) -> None:
    """Both colours stand in the palette, and no other; one order tells how many of each, all together."""
    answer = coloured(tmp_path, "red")
    assert answer.planting is not None
    (order,), (row,) = answer.planting.orders, answer.planting.rows
    assert order.colours == ("12 red", "8 pink")
    assert order.needed_count == 20
    assert {swatch.colour for swatch in row.swatches} == {"red", "pink"}


def test_a_palette_of_one_colour_named_in_the_plan(tmp_path: Path) -> None:
    """All in pink: one swatch, no pair, and a plan that works."""
    answer = coloured(tmp_path, "pink")
    assert answer.planting is not None
    (row,) = answer.planting.rows
    assert [swatch.colour for swatch in row.swatches] == ["pink"]
    assert row.pairs == ()
    assert answer.sound


@pytest.mark.parametrize(
    ("word", "code", "said"),
    [("pinkk", "unknown-colour", "Did you mean"), ("blue", "rare-colour", "listed are"), ("Pink", "", "")],
)
def test_a_colour_that_is_none_or_not_its_own(tmp_path: Path, word: str, code: str, said: str) -> None:
    """An unknown word gets the nearest offered, a colour the plant table lacks a note; capitals do not matter."""
    found = {finding.code: finding for finding in coloured(tmp_path, word).findings}
    if code:
        assert said in found[code].remedy
    else:
        assert not {"unknown-colour", "rare-colour"} & set(found)


def test_a_colour_asked_for_is_looked_for(tmp_path: Path) -> None:
    """Stand-ins for white plants are scored by white, those for red ones by red."""
    best = []
    for colour in ("white", "red"):
        plan = tmp_path / f"{colour}.toml"
        plan.write_text(COLOURED.replace('colour = "pink"', 'colour = "{one}"').format(one=colour), encoding="utf-8")
        swap = work_out_planting(plan, swap="geranium-zonal").swaps[0]
        best.append({one.plant: part.score for one in swap.substitutes for part in one.parts if part.part == "colour"})
    white, red = best
    assert any(abs(white[key] - red[key]) > 0.5 for key in white)


@pytest.mark.parametrize("name", ["alder_point_landing", "courthouse_square", "balcony"])
def test_work_and_plants_cut_back_in_the_same_weeks(name: str) -> None:
    """The tasks' trims lie in the weeks that the upkeep has them, and take the same hours; so does deadheading."""
    planting, care = work_out_planting(example(name)).planting, work_out_care(example(name), parts=("work",)).care
    assert planting is not None
    assert care is not None
    assert care.season is not None
    weeks = [week for week in planting.upkeep if week.trim_h]
    tasks = [task for task in care.season.tasks if task.key.startswith("trim-")]
    starts = [date.fromisoformat(week.week) for week in weeks]
    assert all(any(start <= task.day < start + timedelta(days=7) for start in starts) for task in tasks)
    assert sum(task.minutes_total for task in tasks) / 60 == pytest.approx(sum(week.trim_h for week in weeks))
    grooms = {task.minutes_total for task in care.season.tasks if task.key == "groom"}
    looked = [week.visit_h + week.deadhead_h for week in planting.upkeep]
    assert list(grooms) == pytest.approx([60 * sum(looked) / len(looked)])
