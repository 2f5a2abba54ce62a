"""Records: classes of named values, frozen, slotted, equal by what they hold, and cheap to define.

The standard decorator writes and compiles six functions for every such class; some hundreds of classes then cost every
command a fifth of a second before it begins. Here `__init__` alone is written anew and all records share the rest.
Fields, their defaults, `replace`, `fields` and patterns are the standard library's (docs/decisions/0017).
"""

from collections.abc import Callable
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from typing import Any, ClassVar, TypeVar, cast, dataclass_transform, overload

T = TypeVar("T")
_UNSET: Any = object()


@overload
def record(cls: type[T], /) -> type[T]: ...
@overload
def record(*, kw_only: bool = False) -> Callable[[type[T]], type[T]]: ...
@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: type[T] | None = None, /, *, kw_only: bool = False) -> type[T] | Callable[[type[T]], type[T]]:
    """A class decorator: what `dataclass(frozen=True, slots=True)` makes, defined in a quarter of its time.

    Args:
        cls: the class; what it defines itself of the shared functions is kept
        kw_only: whether its own values are given by name only
    Returns: the class as a record
    Raises: TypeError for a value without a default behind one with
    """
    if cls is None:
        return lambda owner: _made(owner, kw_only)
    return _made(cls, kw_only)


def _made(cls: type[T], kw_only: bool) -> type[T]:
    own = set(vars(cls))
    made = dataclass(init=False, repr=False, eq=False, slots=True, kw_only=kw_only)(cls)
    parts = fields(cast("Any", made))
    compared = [part.name for part in parts if part.compare]
    shared = {**_SHARED, "__init__": _init_of(made, parts), "_compared": staticmethod(_values_of(compared))}
    for name, what in shared.items():
        if name not in own:
            setattr(made, name, what)
    return made


def _init_of(cls: type, parts: tuple[Field[Any], ...]) -> Callable[..., None]:
    """The `__init__` of a record: one assignment a field, then what the class does itself after them."""
    known: dict[str, Any] = {"_unset": _UNSET, "_set": object.__setattr__}
    by_place: list[str] = []
    by_name: list[str] = []
    body = []
    for part in parts:
        default = ""
        value = part.name
        if part.default is not MISSING:
            known[f"_of_{part.name}"] = part.default
            default = f"=_of_{part.name}"
        elif part.default_factory is not MISSING:
            known[f"_of_{part.name}"] = part.default_factory
            default, value = "=_unset", f"_of_{part.name}() if {part.name} is _unset else {part.name}"
        (by_name if part.kw_only else by_place).append(part.name + default)
        body.append(f" _set(self, {part.name!r}, {value})")
    if hasattr(cls, "__post_init__"):
        body.append(" self.__post_init__()")
    taken = ", ".join(["self", *by_place, *(["*", *by_name] if by_name else [])])
    try:
        exec("\n".join([f"def __init__({taken}):", *(body or [" pass"])]), known)
    except SyntaxError as error:
        raise TypeError(f"{cls.__name__}: a value without a default follows one with a default") from error
    made: Callable[..., None] = known["__init__"]
    made.__qualname__ = f"{cls.__qualname__}.__init__"
    made.__module__ = cls.__module__
    return made


class _Shared:
    """What every record does alike."""

    _compared: ClassVar[Callable[[Any], Any]]

    def __repr__(self) -> str:
        told = (f"{part.name}={getattr(self, part.name)!r}" for part in fields(cast("Any", self)) if part.repr)
        return f"{type(self).__qualname__}({', '.join(told)})"

    def __eq__(self, other: object) -> bool:
        if other.__class__ is not self.__class__:
            return NotImplemented
        kind = type(self)
        return bool(kind._compared(self) == kind._compared(other))

    def __hash__(self) -> int:
        return hash(type(self)._compared(self))

    def __setattr__(self, name: str, value: object) -> None:
        raise FrozenInstanceError(f"cannot assign to field {name!r}")

    def __delattr__(self, name: str) -> None:
        raise FrozenInstanceError(f"cannot delete field {name!r}")

    def __getstate__(self) -> list[Any]:
        return [getattr(self, part.name) for part in fields(cast("Any", self))]

    def __setstate__(self, state: list[Any]) -> None:
        for part, value in zip(fields(cast("Any", self)), state, strict=True):
            object.__setattr__(self, part.name, value)


def _values_of(names: list[str]) -> Callable[[Any], tuple[Any, ...]]:
    """What reads these values of a record, always as a tuple, so that a value is equal to itself whatever it is."""
    if len(names) > 1:
        return attrgetter(*names)
    return lambda one: tuple(getattr(one, name) for name in names)


_SHARED = {name: what for name, what in vars(_Shared).items() if callable(what) and name.startswith("__")}
