"""A record is what the standard library's frozen dataclass is, tried beside one."""

import copy
import dataclasses
import pickle
from dataclasses import FrozenInstanceError, dataclass, field, fields, replace
from typing import Any, ClassVar

import pytest

from brimful.records import record


def _classes(made: Any) -> tuple[Any, Any, Any]:
    """The same three classes by one decorator or the other."""

    @made
    class Point:
        """A point."""

        x: float
        y: float = 2.0
        seen: list[int] = field(default_factory=list, compare=False)
        kinds: ClassVar[int] = 0

    @made
    class Nothing:
        """Holds nothing."""

    @made
    class Checked:
        """One value, looked at."""

        share: float

        def __post_init__(self) -> None:
            if not 0 <= self.share <= 1:
                raise ValueError("no share")

        def __repr__(self) -> str:
            return f"{self.share:.0%}"

    return Point, Nothing, Checked


OURS = _classes(record)
THEIRS = _classes(dataclass(frozen=True, slots=True))
PAIRS = [pytest.param(ours, theirs, id=ours.__name__) for ours, theirs in zip(OURS, THEIRS, strict=True)]


@record(kw_only=True)
class Base:
    """Given by name, inherited, and found again by pickle."""

    key: str
    note: str = ""


@record(kw_only=True)
class Longer(Base):
    """One value more."""

    size: float


@pytest.mark.parametrize(("ours", "theirs"), PAIRS)
def test_has_the_fields_slots_and_patterns_of_a_dataclass(ours: Any, theirs: Any) -> None:
    assert [(part.name, part.compare, part.kw_only) for part in fields(ours)] == [
        (part.name, part.compare, part.kw_only) for part in fields(theirs)
    ]
    assert ours.__slots__ == theirs.__slots__
    assert ours.__match_args__ == theirs.__match_args__
    assert ours.__doc__ == theirs.__doc__
    assert dataclasses.is_dataclass(ours)


@pytest.mark.parametrize("given", [(1.0,), (1.0, 5.0), (1.0, 5.0, [3])])
def test_prints_and_hashes_as_a_dataclass(given: tuple[Any, ...]) -> None:
    ours, theirs = OURS[0](*given), THEIRS[0](*given)
    assert repr(ours) == repr(theirs)
    assert hash(ours) == hash(theirs)
    assert dataclasses.astuple(replace(ours, y=9.0)) == dataclasses.astuple(replace(theirs, y=9.0))


def test_is_equal_by_its_compared_values_and_its_class() -> None:
    point, nothing, checked = OURS
    assert point(1.0, seen=[1]) == point(1.0, seen=[2])
    assert point(1.0) != point(2.0)
    assert point(1.0) != THEIRS[0](1.0)
    assert nothing() == nothing()
    assert checked(0.5) == checked(0.5)


def test_is_equal_to_itself_whatever_it_holds() -> None:
    numbers = pytest.importorskip("numpy").arange(3.0)
    held = OURS[2](0.5)
    object.__setattr__(held, "share", numbers)
    again = OURS[2](0.5)
    object.__setattr__(again, "share", numbers)
    assert held == again


def test_each_has_a_default_of_its_own() -> None:
    one, other = OURS[0](1.0), OURS[0](1.0)
    one.seen.append(1)
    assert not other.seen


@pytest.mark.parametrize("made", [OURS, THEIRS])
def test_nothing_can_be_set_or_taken_away(made: Any) -> None:
    one = made[0](1.0)
    with pytest.raises(FrozenInstanceError, match="cannot assign to field 'x'"):
        one.x = 2.0
    with pytest.raises(FrozenInstanceError, match="cannot delete field 'x'"):
        del one.x
    with pytest.raises((FrozenInstanceError, TypeError)):
        one.other = 2.0
    assert one.x == 1.0


def test_keeps_what_a_class_does_itself() -> None:
    assert repr(OURS[2](0.25)) == "25%"
    with pytest.raises(ValueError, match="no share"):
        OURS[2](2.0)


@pytest.mark.parametrize("made", [OURS, THEIRS])
def test_refuses_what_it_was_not_told_to_take(made: Any) -> None:
    for given in ((), (1.0, 2.0, [], 4)):
        with pytest.raises(TypeError):
            made[0](*given)


def test_takes_inherited_values_by_name() -> None:
    made = Longer(key="a", size=2.0)
    assert (made.key, made.note, made.size) == ("a", "", 2.0)
    assert made != Base(key="a")
    with pytest.raises(TypeError):
        Longer("a", "", 2.0)  # type: ignore[misc]


@pytest.mark.parametrize("through", [copy.copy, copy.deepcopy, lambda one: pickle.loads(pickle.dumps(one))])
def test_can_be_copied_and_kept(through: Any) -> None:
    assert through(Longer(key="a", size=2.0)) == Longer(key="a", size=2.0)


def test_a_value_without_a_default_behind_one_with_is_refused() -> None:
    for made in (record, dataclass(frozen=True, slots=True)):
        with pytest.raises(TypeError, match="default"):

            @made
            class Wrong:
                """Out of order."""

                first: int = 1
                second: int
