"""Laws that hold for whole plans, whatever the numbers."""

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.design.plans import EXAMPLES, FIXED, design_of, outcome_of, text_of

from brimful.findings import Severity
from brimful.render.as_json import to_data

METRIC = {
    "60 psi": "413.685437590 kPa", "at 40 psi": "at 275.790291727 kPa", "25 psi": "172.368932329 kPa",
    "5 gal in 30 s": "18.92705892 L in 0:30", "40 ft": "12.192 m", "2 ft": "60.96 cm", "3 ft": "0.9144 m",
    "8 ft": "2438.4 mm", "7 ft": "2.1336 m", "1 ft": "30.48 cm", "30 in": "76.2 cm", "2 in": "50.8 mm",
    "24 in": "0.6096 m",
}  # fmt: skip
"""The same: 1 in = 25.4 mm and 1 gal = 3.785411784 L exactly, 1 psi = 6.894757293168 kPa (NIST SP 811, memory)."""
SIZES = st.integers(16, 48)
FEW = settings(max_examples=15, deadline=None, derandomize=True)


def same(one: Any, other: Any, path: str = "") -> None:
    """Two pieces of data are the same, numbers to nine digits."""
    if isinstance(one, dict):
        assert one.keys() == other.keys(), path
        for key in one:
            same(one[key], other[key], f"{path}/{key}")
    elif isinstance(one, list):
        assert len(one) == len(other), path
        for i, (a, b) in enumerate(zip(one, other, strict=True)):
            same(a, b, f"{path}/{i}")
    elif isinstance(one, float):
        assert one == pytest.approx(other, rel=1e-9, abs=1e-9), path
    else:
        assert one == other, path


def numbers(data: Any) -> list[Any]:
    """All numbers of a design, in order."""
    inner = data.values() if isinstance(data, dict) else data if isinstance(data, list) else None
    if inner is None:
        return [data] if isinstance(data, int | float) else []
    return [number for one in inner for number in numbers(one)]


@pytest.mark.parametrize("name", EXAMPLES)
def test_names_change_no_number(name: str) -> None:
    """Rows, zones, recipes and the title may be called anything; every number of the design stays."""
    text = text_of(name)
    words = sorted(
        set(re.findall(r'(?m)^(?:name|title|zone) = "(.*)"', text)) | set(re.findall(r"\[recipe\.(\w+)\]", text))
    )
    renamed = text
    for i, word in enumerate(words):
        renamed = renamed.replace(f'"{word}"', f'"new name {i}"').replace(
            f"[recipe.{word}]", f'[recipe."new name {i}"]'
        )
    assert renamed != text
    assert numbers(to_data(design_of(renamed))) == numbers(to_data(design_of(text)))


def test_metric_and_us_wording_give_one_design() -> None:
    """The same plan in the other system's words is the same design."""
    text = FIXED
    for us, metric in METRIC.items():
        text = re.sub(rf'(?<=["\[ ]){re.escape(us)}(?=["\s])', metric, text)
    assert not re.search(r"\d (in|ft|psi|gal)\b", text)
    same(to_data(design_of(text)), to_data(design_of(FIXED)))


def test_fifteen_lines_are_enough() -> None:
    """The balcony, fifteen lines with a word in them, is worked out whole: run times for each occasion, and a list."""
    text = text_of("balcony")
    assert len([line for line in text.splitlines() if line.strip()]) <= 15
    design = design_of(text)
    assert [time.occasion for time in design.zones[0].run_times] == ["planting_day", "mid_season", "peak"]
    assert {m.what for m in design.materials} >= {"container", "mix", "plants", "main", "lateral", "feeder"}
    assert len(design.assumptions) >= 8


def test_three_lines_are_enough() -> None:
    """A container alone is a plan; what is taken for the rest is listed."""
    outcome = outcome_of('[[containers]]\nname = "pot"\ncontainer = "round-terracotta-18x16"\n')
    assert outcome.design is not None
    assert not any(f.severity is Severity.ERROR for f in outcome.findings)
    taken = {one.field for one in outcome.design.assumptions}
    assert taken >= {"supply.pressure", "site.weather", "containers.mix", "containers.headspace", "site.planting_day"}


def test_nothing_said_is_assumed() -> None:
    """What the plan says is not among the assumptions; each assumption has a value and a source."""
    fields = {one.field: one for one in design_of(FIXED).assumptions}
    for said in (
        "tubing.main.length",
        "tubing.regulator",
        "tubing.lateral",
        "containers.headspace",
        "containers.apart",
    ):
        assert said not in fields
    assert all(one.value and one.what and len(one.source) > 5 for one in fields.values())


@FEW
@given(count=st.integers(1, 6))
def test_twice_the_containers_twice_the_goods(count: int) -> None:
    """Twice as many containers take twice the mix, plants, feeders and dripline, and each holds what it held."""
    one, two = (design_of(FIXED.replace("count = 4", f"count = {n}")) for n in (count, 2 * count))
    assert two.rows[0].fill_volume_l == one.rows[0].fill_volume_l
    assert two.rows[0].demands == one.rows[0].demands
    for kind in ("mix", "plants", "container", "feeder", "dripline"):
        a, b = ([m for m in design.materials if m.what == kind] for design in (one, two))
        assert [m.name for m in a] == [m.name for m in b]
        assert a
        for x, y in zip(a, b, strict=True):
            for before, after in ((x.volume_l, y.volume_l), (x.length_m, y.length_m)):
                assert before is None or after == pytest.approx(2 * before, rel=1e-12)
            assert kind == "mix" or x.count is None or y.count == 2 * x.count


@FEW
@given(top=SIZES, height=SIZES, more=st.integers(1, 8), which=st.sampled_from(["top", "height", "bottom"]))
def test_a_larger_container_never_has_less(top: int, height: int, more: int, which: str) -> None:
    """A container that is wider or taller has more room, weighs more, and holds at least as much water."""
    sizes = {"top": top, "height": height, "bottom": 16}
    larger = {**sizes, which: sizes[which] + more}

    def row(of: dict[str, int]) -> Any:
        said = f'top = "{of["top"]} in", bottom = "{of["bottom"]} in", height = "{of["height"]} in"'
        return design_of(re.sub(r"top = .*? in\", material", f"{said}, material", FIXED)).rows[0]

    small, large = row(sizes), row(larger)
    assert large.fill_volume_l > small.fill_volume_l
    assert large.mix_to_buy_l > small.mix_to_buy_l
    assert large.weight_empty_kg > small.weight_empty_kg
    assert large.water_held_l >= small.water_held_l
    assert large.weight_saturated_kg > large.weight_drained_kg > large.weight_dry_kg > large.weight_empty_kg


@FEW
@given(order=st.permutations(range(3)))
def test_the_order_of_plants_is_no_matter_for_mix_and_weight(order: list[int]) -> None:
    """Plants may be listed in any order: mix to buy and weights stay."""
    plants = ['"1 canna-dwarf"', '"4 geranium-zonal"', '"3 angelonia"']
    text = re.sub(r"plants = .*", f"plants = [{', '.join(plants[i] for i in order)}]", FIXED)
    usual = re.sub(r"plants = .*", f"plants = [{', '.join(plants)}]", FIXED)
    a, b = design_of(text).rows[0], design_of(usual).rows[0]
    assert a.mix_to_buy_l == pytest.approx(b.mix_to_buy_l, rel=1e-12)
    assert a.weight_saturated_kg == pytest.approx(b.weight_saturated_kg, rel=1e-12)


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_is_lost_on_the_way(name: str) -> None:
    """Zones draw what their containers get; the budget runs from the tap to the last emitter; shares average to one."""
    for zone in design_of(text_of(name)).zones:
        assert zone.flow_l_h == pytest.approx(sum(c.flow_l_h for c in zone.containers), rel=1e-9)
        left = zone.static_head_m
        for step in zone.pressure_budget:
            assert step.head_left_m == pytest.approx(left - step.head_lost_m, abs=1e-9)
            left = step.head_left_m
        assert left == pytest.approx(zone.least_head_m, abs=1e-6)
        for time in zone.run_times:
            assert time.minutes_per_day == time.minutes_per_start * time.starts_per_day_count
            assert time.zone_l_day == pytest.approx(zone.flow_l_h * time.minutes_per_day / 60, rel=1e-9)


def test_every_single_emitter_is_to_have() -> None:
    """Emitters to have are as many as the zone waters with, under the name of one."""
    design = design_of(text_of("balcony"))
    to_have = [material for material in design.materials if material.what == "emitters"]
    assert sum(material.count or 0 for material in to_have) == sum(zone.emitters_count for zone in design.zones) == 6
    assert not any("×" in material.name for material in to_have)


@pytest.mark.parametrize("name", EXAMPLES)
def test_demand_grows_with_the_season(name: str) -> None:
    """A container wants more at mid-season than after planting, and most on the hottest days; run times follow."""
    design = design_of(text_of(name))
    for row in design.rows:
        wants = [demand.demand_l_day for demand in row.demands]
        assert wants == sorted(wants)
    for zone in design.zones:
        runs = [time.minutes_per_day for time in zone.run_times]
        assert runs == sorted(runs)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_container_gets_what_it_wants(name: str) -> None:
    """At the run times given, no container of a zone gets less than it drinks, unless a finding says so."""
    design = design_of(text_of(name))
    wants = {(row.name, demand.occasion): demand.demand_l_day for row in design.rows for demand in row.demands}
    for zone in design.zones:
        for time in zone.run_times:
            if time.short_l_day == 0:
                for c in zone.containers:
                    assert c.flow_l_h * time.minutes_per_day / 60 >= wants[c.row, time.occasion]


def test_a_tap_tested_once_is_not_endless() -> None:
    """Without a static pressure, one bucket test promises its own flow and no more."""
    text = FIXED.replace('pressure = "60 psi"\n', "")
    zone = design_of(text).zones[0]
    assert zone.supply_l_h == pytest.approx(5 * 3.785411784 / 30 * 3600, rel=1e-12)  # 5 gal in 30 s
    assert zone.supply_share == pytest.approx(zone.flow_l_h / (zone.supply_l_h or 0), rel=1e-12)
