"""Potting mix: how it holds water by depth and shape of the container, and what plants can take of it."""

from brimful.domains.substrate.retention import Retention, WaterClasses, water_classes
from brimful.domains.substrate.store import (
    EASY_SUCTION_M,
    STRESS_SUCTION_M,
    WILTING_SUCTION_M,
    Store,
    column_mean,
    container_store,
    volume_l,
    water_at_suction_l,
    water_held_l,
)
from brimful.domains.substrate.wetting import capture_share, taken_up_l

__all__ = [
    "EASY_SUCTION_M",
    "STRESS_SUCTION_M",
    "WILTING_SUCTION_M",
    "Retention",
    "Store",
    "WaterClasses",
    "capture_share",
    "column_mean",
    "container_store",
    "taken_up_l",
    "volume_l",
    "water_at_suction_l",
    "water_classes",
    "water_held_l",
]
