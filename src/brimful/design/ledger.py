"""The ledger: every figure of a design with the function that gave it and what went in, noted as it is worked out.

`brimful explain` shows these entries, so an explanation cannot drift from the computation: it is the computation.
"""

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from brimful.records import record

Value = TypeVar("Value")


@record
class Working:
    """One figure: its path in the design, its value, the function that gave it, and the inputs by name."""

    figure: str
    value: object
    function: Callable[..., object]
    inputs: Mapping[str, object]

    @property
    def words(self) -> str:
        """The formula in words: what the function says of itself."""
        return inspect.getdoc(self.function) or self.function.__name__

    @property
    def source(self) -> str:
        """The line of the function's text that names the source."""
        lines = [line.strip() for line in self.words.splitlines()]
        return next((line.removeprefix("Source:").strip() for line in lines if line.startswith("Source:")), "")


@dataclass(slots=True)
class Ledger:
    """Collects workings under one prefix; `work` calls the function and notes the call."""

    prefix: str = ""
    entries: dict[str, Working] = field(default_factory=dict)

    def at(self, *parts: str) -> "Ledger":
        """The same ledger, one step further down the path."""
        return Ledger("/".join(filter(None, (self.prefix, *parts))), self.entries)

    def work(self, figure: str, function: Callable[..., Value], **inputs: object) -> Value:
        """Work a figure out by `function(**inputs)` and note how."""
        value = function(**inputs)
        path = f"{self.prefix}/{figure}" if self.prefix else figure
        self.entries[path] = Working(path, value, function, inputs)
        return value
