"""The search for the timer's setting: what it promises it keeps."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from brimful.domains.watering.run_time import Limit, TimerLimits
from brimful.domains.watering.schedule import (
    fixed_for_worst_week,
    follow_settings,
    left_at_spring,
    plan_season,
)
from brimful.domains.watering.season import Season, Store, daylight_shares
from brimful.domains.watering.settings import Setting, Wanted, pulses_of_week
from brimful.domains.watering.survival import days_without_water

CONTAINERS, YEARS, DAYS = 3, 20, 24
FLOW = np.array([11.0, 12.0, 12.5])


def a_store(litres: float = 22.0) -> Store:
    """Three invented containers, nearly alike."""
    capacity = litres * np.array([0.95, 1.0, 1.1])
    return Store(capacity, 0.6 * capacity, 0.4 * capacity, 0.3 * capacity, np.full(CONTAINERS, 0.6))


def a_season(thirst: float = 0.7, seed: int = 4, rainy: float = 0.1) -> Season:
    """A warming month with growing plants."""
    draw = np.random.default_rng(seed)
    et0 = np.linspace(3.0, 6.0, DAYS)[:, None] + draw.uniform(-1.5, 1.5, (DAYS, YEARS))
    canopy = np.repeat(np.linspace(0.6, 1.0, DAYS)[:, None] * thirst, CONTAINERS, axis=1)
    hours = daylight_shares(np.full(DAYS, 5.3), np.full(DAYS, 20.6))
    return Season(et0, canopy, draw.gamma(rainy, 6.0, et0.shape), np.full_like(canopy, 0.2), hours)


WISH = Wanted(reliability=0.9, start_hours=(4, 5, 6, 12, 13, 19, 20))


@settings(max_examples=12, deadline=None)
@given(seed=st.integers(0, 99), thirst=st.floats(0.2, 1.0), reliability=st.sampled_from([0.8, 0.95, 1.0]))
def test_a_plan_that_is_met_keeps_its_promise(seed: int, thirst: float, reliability: float) -> None:
    """Run again as a whole season, every week stays within the stated risk, on whole steps."""
    wish = replace(WISH, reliability=reliability, timer=TimerLimits(minute_step=2))
    store, season = a_store(), a_season(thirst, seed)
    plans = plan_season(store, season, FLOW, wish)
    assert len(plans) == 4
    if all(plan.met for plan in plans):
        outcome = follow_settings(store, season, FLOW, settings=[plan.setting for plan in plans], wanted=wish)
        assert (outcome.stress_chance <= 1.0 - reliability + 1e-9).all()
        assert outcome.stress_chance == pytest.approx([plan.stress_chance for plan in plans])
    assert all(plan.setting.minutes % 2 == 0 for plan in plans)


def test_no_shorter_run_would_do() -> None:
    """One step less in the last week breaks the wish."""
    store, season = a_store(), a_season()
    plans = plan_season(store, season, FLOW, WISH)
    assert all(plan.met for plan in plans)
    chosen = [plan.setting for plan in plans]
    for week in (1, 2):
        shorter = list(chosen)
        shorter[week] = Setting(chosen[week].starts, chosen[week].minutes - 1)
        shorter[week + 1] = shorter[week]
        outcome = follow_settings(store, season, FLOW, settings=shorter, wanted=WISH)
        assert outcome.stress_chance[week : week + 2].max() > 0.1


@settings(max_examples=10, deadline=None)
@given(seed=st.integers(0, 99), starts=st.integers(1, 4), minutes=st.integers(0, 60), more=st.integers(0, 60))
def test_longer_runs_never_raise_the_chance_of_stress(seed: int, starts: int, minutes: int, more: int) -> None:
    """The law the search rests on."""
    store, season = a_store(), a_season(seed=seed)

    def chance(setting: Setting) -> np.ndarray:
        return follow_settings(store, season, FLOW, settings=[setting] * 4, wanted=WISH).stress_chance

    assert (chance(Setting(starts, minutes + more)) <= chance(Setting(starts, minutes)) + 1e-12).all()


def test_a_dearer_wish_takes_no_fewer_minutes() -> None:
    """More certainty, or thirstier plants, cost at least as much water in all."""
    store = a_store()

    def litres(thirst: float, reliability: float) -> float:
        plans = plan_season(store, a_season(thirst), FLOW, replace(WISH, reliability=reliability))
        return float(sum(plan.applied_l.sum() for plan in plans))

    assert litres(0.6, 0.5) <= litres(0.6, 0.95) <= litres(0.8, 0.95)


def test_weekly_setting_saves_against_the_worst_week() -> None:
    """A timer set each week uses less than one set for the thirstiest, and a timer left at spring lets plants dry."""
    store, season = a_store(), a_season()
    plans = plan_season(store, season, FLOW, WISH)
    weekly = follow_settings(store, season, FLOW, settings=[plan.setting for plan in plans], wanted=WISH)
    fixed = follow_settings(store, season, FLOW, settings=fixed_for_worst_week(plans), wanted=WISH)
    spring = follow_settings(store, season, FLOW, settings=left_at_spring(plans, 1), wanted=WISH)
    assert weekly.applied_l < fixed.applied_l
    assert fixed.drained_share >= weekly.drained_share
    assert spring.stress_chance[-1] > weekly.stress_chance[-1]
    assert spring.used_share <= weekly.used_share + 1e-12 <= 1.0 + 1e-9


@pytest.mark.parametrize(
    ("wish", "limit"),
    [
        (replace(WISH, timer=TimerLimits(permitted_minutes=10)), Limit.TIME),
        (replace(WISH, weekdays=(0,)), Limit.DAYS),
        (replace(WISH, start_hours=(4, 5)), Limit.HOURS),
        (replace(WISH, timer=TimerLimits(max_starts=1)), Limit.STARTS),
        (replace(WISH, timer=TimerLimits(max_starts=1, longest_minutes=5)), Limit.LONGEST),
    ],
)
def test_a_schedule_that_cannot_exist_says_what_binds(wish: Wanted, limit: Limit) -> None:
    """The limit named is the one whose removal makes the week possible, and the shortfall is stated."""
    season = a_season(1.0) if limit in {Limit.TIME, Limit.DAYS, Limit.LONGEST} else a_season(1.4)
    plans = plan_season(a_store(), season, FLOW, wish)
    failed = [plan for plan in plans if not plan.met]
    assert failed
    assert limit in {plan.limit for plan in failed}
    assert all(plan.lacking_l > 0.0 for plan in failed)
    assert all((plan.lacking_minutes > 0) == (plan.limit is Limit.TIME) for plan in failed)


def test_a_store_too_small_for_any_timer() -> None:
    """Containers that dry out in an hour: the room in the mix binds, nothing fails."""
    plans = plan_season(a_store(0.05), a_season(3.0), FLOW, WISH)
    assert {plan.limit for plan in plans if not plan.met} == {Limit.ROOM}


@given(starts=st.integers(1, 8), minutes=st.integers(0, 200), first=st.integers(0, 30))
def test_pulses_bring_the_set_minutes_at_permitted_times(starts: int, minutes: int, first: int) -> None:
    """Whatever the split over hours, a watering day brings starts × minutes, other days nothing."""
    wish = replace(WISH, weekdays=(0, 2, 4), first_weekday=2)
    for day, pulses in enumerate(pulses_of_week(Setting(starts, minutes), FLOW, first_day=first, days=7, wanted=wish)):
        total = sum((litres for _, litres in pulses), np.zeros(CONTAINERS))
        runs = (2 + first + day) % 7 in (0, 2, 4)
        assert total == pytest.approx(FLOW * starts * minutes / 60.0 * runs)
        assert [hour for hour, _ in pulses] == sorted({hour for hour, _ in pulses})
        assert minutes > 60 or {hour for hour, _ in pulses} <= set(wish.start_hours)


def test_days_a_stopped_zone_is_survived() -> None:
    """Room over demand in whole days, fewer in a dearer month, nan where there is no season; drier ends last longer."""
    store = Store(np.array([20.0]), np.array([14.0]), np.array([8.0]), np.array([0.0]), np.array([1.0]))
    demand = np.concatenate([np.full((30, 1, 1), 2.0), np.full((30, 1, 1), 5.0)])
    months = np.repeat([5.0, 6.0], 30)
    days = days_without_water(store, demand, months, risk=1.0)
    assert days[4, 0] == 6.0
    assert days[5, 0] == 2.0
    assert np.isnan(days[0, 0])
    assert days_without_water(store, demand, months)[4, 0] < 6.0
    longer = days_without_water(store, demand, months, risk=1.0, limp_share=0.5)
    assert longer[5, 0] == np.floor((12.0 + 8.0 * np.log(2.0)) / 5.0)


def test_wishes_that_mean_nothing_are_refused() -> None:
    """No hours, no days, no certainty, no flow, settings that do not cover the season."""
    for wrong in ({"start_hours": ()}, {"weekdays": (7,)}, {"reliability": 0.0}, {"drained_cap": 1.5}):
        with pytest.raises(ValueError, match="cannot be met"):
            replace(WISH, **wrong)
    with pytest.raises(ValueError, match="flow_l_h"):
        plan_season(a_store(), a_season(), np.zeros(CONTAINERS), WISH)
    with pytest.raises(ValueError, match="settings for"):
        follow_settings(a_store(), a_season(), FLOW, settings=[Setting(1, 1)], wanted=WISH)
    with pytest.raises(ValueError, match="limp_share"):
        days_without_water(a_store(), np.ones((2, 1, CONTAINERS)), np.ones(2), limp_share=0.0)


def test_plants_go_before_water() -> None:
    """Where one container needs what the others drain, the wish is met all the same."""
    plans = plan_season(a_store(), a_season(rainy=0.0), np.array([6.0, 30.0, 30.0]), WISH)
    assert all(plan.met for plan in plans)
    assert max(plan.drained_share for plan in plans) > WISH.drained_cap


def test_one_that_stands_for_many_counts_as_often() -> None:
    """Three containers, one of which stands for two, drain and use the same shares as the same four one by one."""
    store, season, at = a_store(), a_season(), np.array([0, 1, 1, 2])
    some = replace(store, stands_for=np.array([1.0, 2.0, 1.0]))
    many = Store(*(getattr(store, name)[at] for name in ("capacity_l", "refill_l", "stress_l", "dry_l", "dry_capture")))
    same = replace(
        season, litres_per_mm=season.litres_per_mm[:, at], rain_litres_per_mm=season.rain_litres_per_mm[:, at]
    )
    runs = [Setting(1, 12), Setting(2, 40), Setting(1, 90), Setting(1, 30)]
    one, other = (
        follow_settings(held, days, flow, settings=runs, wanted=WISH)
        for held, days, flow in ((some, season, FLOW), (many, same, FLOW[at]))
    )
    assert one.drained_share == pytest.approx(other.drained_share)
    assert one.used_share == pytest.approx(other.used_share)
    alone = follow_settings(store, season, FLOW, settings=runs, wanted=WISH)
    assert one.drained_share != pytest.approx(alone.drained_share, rel=1e-4)
