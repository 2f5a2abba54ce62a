"""Handling, set-out, build and season: laws of the report, and bad crews as findings."""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from tests.design.care.desks import codes, desk_of, made
from tests.design.plans import EXAMPLES, FIXED, text_of

from brimful.design.care.build import build_of, steps_of
from brimful.design.care.desk import date_of


@pytest.mark.parametrize("name", EXAMPLES)
def test_nobody_is_at_two_places_and_nothing_before_its_time(name: str) -> None:
    """In the schedule each person does one thing at a time, and each step follows all it waits for."""
    desk = desk_of(text_of(name))
    build = build_of(desk)
    assert build is not None
    day_min = build.day_hours * 60
    times = {s.key: ((s.day_count - 1) * day_min + s.start_min, s.people) for s in build.slots}
    ends = {s.key: (s.day_count - 1) * day_min + s.end_min for s in build.slots}
    for step in steps_of(desk):
        assert all(times[step.key][0] >= ends[before] - 1e-6 for before in step.after)
    for person in range(1, build.people_count + 1):
        mine = sorted((times[s.key][0], ends[s.key]) for s in build.slots if person in s.people)
        assert all(a[1] <= b[0] + 1e-6 for a, b in pairwise(mine))
    assert build.best_possible_hours <= build.finish_hours + 1e-9


def test_ticked_steps_are_not_done_again() -> None:
    """A step ticked off leaves the schedule and its minutes; an unknown one is told with the nearest."""
    ticked = FIXED + '[crew]\ndone = ["row 1:mark", "row 1:pad", "row 1:sett"]\n'
    before, after = build_of(desk_of()), build_of(desk_of(ticked))
    assert before is not None
    assert after is not None
    assert after.done_count == 2
    assert {s.key for s in before.slots} - {s.key for s in after.slots} == {"row 1:mark", "row 1:pad"}
    assert after.person_hours < before.person_hours
    assert "step-unknown" in codes(ticked)


@pytest.mark.parametrize(
    "crew",
    ["people = 1", "people = 2\nequipment = { hand-truck = 0 }", 'people = 1\nequipment = { "pallet jack" = 1 }'],
)
def test_a_crew_that_cannot_is_a_finding(crew: str) -> None:
    """A crew too small for a step, or without its tool, is told; the rest of the report stands."""
    text = f"{FIXED}[crew]\n{crew}\n"
    assert "crew-lacks" in codes(text)
    care = made(text)
    assert care.build is None
    assert care.order is not None


def test_every_card_carries_its_cautions_and_reasons() -> None:
    """Each step says why; lifting stands at setting, digging only where pads are dug."""
    build, pads = made().build, made(FIXED + "[pads]\n").build
    assert build is not None
    assert pads is not None
    card = build.cards[1]
    topics = {step.kind: [c.topic for c in step.cautions] for step in card.steps}
    assert "lifting" in topics["set"]
    assert "digging" not in topics["pad"]
    assert "digging" in [c.topic for c in next(s for s in pads.cards[1].steps if s.kind == "pad").cautions]
    assert all(step.reason or card.place == "the site" for card in build.cards for step in card.steps)


def test_a_container_heavier_than_any_aid() -> None:
    """A container of twenty tonnes is told and stops nothing."""
    heavy = FIXED.replace('material = "concrete"', 'material = "concrete", weight = "20000 kg"')
    assert "too-heavy" in codes(heavy)
    assert made(heavy).handling[0].ways_empty == ()


def test_the_wind_that_moves_is_told_with_the_ballast_that_holds() -> None:
    """In a gust above its tipping speed a container is told; its ballast makes it stand by the equation's own law."""
    text = FIXED.replace("latitude = 45", 'latitude = 45\ngust = "150 mph"')
    assert "wind-moves" in codes(text)
    one = made(text).handling[0]
    assert one.tipping_gust_m_s < one.gust_m_s
    assert one.tipping_safety * (one.dry_kg + one.ballast_kg) / one.dry_kg == pytest.approx(1.5)


def test_load_is_stated_in_agreeing_units() -> None:
    """Mass over base, and its pressure at standard gravity."""
    one = made().handling[0]
    assert one.load_kg_m2 == pytest.approx(one.saturated_kg / one.base_area_m2)
    assert one.load_kpa == pytest.approx(one.load_kg_m2 * 9.80665 / 1000)
    assert "structural engineer" in one.load_words


def test_set_out_keeps_clear_of_a_tap() -> None:
    """With a tap on the line containers move, none stands before it, and the ends stay at the marks."""
    text = FIXED + 'set_out = { obstacles = [{ name = "tap", starts = "9 ft", ends = "10 ft" }] }\n'
    out = made(text).set_out[0]
    assert not out.even
    for one in out.stations:
        assert one.far_edge_m <= 9 * 0.3048 + 1e-6 or one.near_edge_m >= 10 * 0.3048 - 1e-6
    plain = made().set_out[0]
    assert plain.even
    assert plain.pitch_m == pytest.approx(7 * 0.3048)


def test_a_full_line_and_a_crushed_tube_are_told() -> None:
    """No room between the marks, feet lower than the tube: findings, and the report stands."""
    crowded = (
        FIXED + 'set_out = { marks = "5 ft", feet = "1/8 in", obstacles = [{ starts = "0 ft", ends = "5 ft" }] }\n'
    )
    assert {"set-out-full", "tube-crushed"} <= codes(crowded)


def test_marks_that_differ_from_the_pitch_are_told() -> None:
    """End marks that ask another spacing than the water was worked out for are told."""
    assert "set-out-differs" in codes(FIXED + 'set_out = { marks = "40 ft" }\n')


def test_pads_on_uneven_ground_come_to_one_level() -> None:
    """Pad tops lie on one level, fill is packed by bricks and shims to half a shim, cut and fill exclude each other."""
    text = FIXED.replace('rise = "1 ft"\nheadspace', 'levels = ["1 ft", "13 in", "10 in", "9 in"]\nheadspace')
    out = made(text + "[pads]\n").set_out[0]
    assert len({round(one.top_m, 9) for one in out.stations}) == 1
    for one in out.stations:
        assert one.cut_m * one.fill_m == 0
        assert abs(one.level_error_m) <= 0.003 + 1e-9
    plain = made(text).set_out[0]
    assert all(one.top_m == one.ground_m for one in plain.stations)


@pytest.mark.parametrize("name", EXAMPLES)
def test_season_tasks_stay_within_the_season_and_add_up(name: str) -> None:
    """Tasks lie from just before planting to a week after frost; the weeks' hours are the tasks' minutes."""
    season = made(text_of(name)).season
    assert season is not None
    assert all(season.planted - timedelta(days=3) <= t.day <= season.frost + timedelta(days=7) for t in season.tasks)
    assert sum(week.hours for week in season.weeks) * 60 == pytest.approx(sum(t.minutes_total for t in season.tasks))
    assert len({task.uid for task in season.tasks}) == len(season.tasks)


def test_identifiers_outlast_a_later_planting() -> None:
    """Planting five days later moves the tasks and keeps their identifiers, as far as there are as many of them."""
    early, late = (made(FIXED.replace("latitude = 45", f'latitude = 45\nplanting_day = "{d} May"')) for d in (15, 20))
    assert early.season is not None
    assert late.season is not None
    days = {task.uid: task.day for task in early.season.tasks}
    same = [task for task in late.season.tasks if task.uid in days]
    assert len(same) >= len(late.season.tasks) - 3
    assert any(task.day != days[task.uid] for task in same)


def test_a_southern_season_ends_in_the_next_year() -> None:
    """Where the season runs over the new year, frost lies in the year after planting."""
    season = made(FIXED.replace("latitude = 45", "latitude = -37")).season
    assert season is not None
    assert season.planted.year + 1 == season.frost.year


def test_a_day_that_a_year_lacks() -> None:
    """29 February is 1 March where there is none."""
    assert date_of(60, 2027) == date(2027, 3, 1)
    assert date_of(60, 2028) == date(2028, 2, 29)


def test_a_hundred_containers_and_three_people() -> None:
    """The build of 100 containers for 3 people ends within a tenth of the shortest that their hands allow."""
    desk = desk_of(FIXED.replace("count = 4", "count = 100") + "[crew]\npeople = 3\n")
    build = build_of(desk)
    assert build is not None
    assert build.finish_hours <= build.best_possible_hours * 1.1


def test_fill_under_pads_is_bought() -> None:
    """Uneven ground asks the stone of the fill over what level ground asks, by the loose volume of the fill."""
    level, uneven = (FIXED.replace('rise = "1 ft"\nheadspace', f"{words}\nheadspace") for words in ("", LEVELS))
    stone = []
    for text in (level, uneven):
        order = made(text + "[pads]\n").order
        assert order is not None
        stone.append(next(item.needed_amount for item in order.items if item.key == "base-stone"))
    out = made(uneven + "[pads]\n").set_out[0]
    side = 24 * 0.0254 + 2 * 0.1 + 2 * 6 * 0.0254
    assert stone[1] - stone[0] == pytest.approx(1.2 * side**2 * sum(one.fill_m for one in out.stations))
    assert stone[1] > stone[0]


LEVELS = 'levels = ["4 ft", "3 ft", "2 ft", "1 ft"]'
