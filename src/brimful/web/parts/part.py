"""What answers an address below a plan that is not a lens: a drawing, a download, an edit."""

from collections.abc import Callable
from typing import Any

from brimful.records import record


@record
class Part:
    """An address below `/p/{plan}/`, the function that answers it, and the ways it may be asked."""

    path: str
    answer: Callable[..., Any]
    methods: tuple[str, ...] = ("GET",)
