"""What a caller may hand to this domain."""

import math


def require_non_negative(**values: float) -> None:
    """Refuse anything that is not a finite number from zero upwards, by name."""
    for name, value in values.items():
        if not (math.isfinite(value) and value >= 0.0):
            raise ValueError(f"{name} is {value}: expected a finite number, 0 or more")


def require_positive(**values: float) -> None:
    """Refuse anything that is not a finite number above zero, by name."""
    for name, value in values.items():
        if not (math.isfinite(value) and value > 0.0):
            raise ValueError(f"{name} is {value}: expected a finite number above 0")


def require_share(**values: float) -> None:
    """Refuse anything outside 0–1, by name."""
    for name, value in values.items():
        if not 0.0 <= value <= 1.0:
            raise ValueError(f"{name} is {value}: expected a share from 0 to 1")
