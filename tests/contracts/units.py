"""Which unit a name carries: the endings that the nomenclature knows."""

ENDINGS = (
    "m", "m2", "m2_s", "m_s", "mm", "mm_day", "l", "l_h", "l_day", "kg", "deg", "c", "s", "k",
    "percent", "share", "count", "money",
)  # fmt: skip
PLAIN = {"count", "exponent", "rank", "share", "share_of_mean", "supply_share_limit", "line", "column", "week"}
"""Names of plain numbers that say in themselves what they count, or what they are a share of."""


def bears_its_unit(name: str) -> bool:
    """Whether a name of a number ends in its unit, begins with it ("minutes per day"), or is a plain number."""
    return name in PLAIN or name.startswith("minutes_per_") or any(name.endswith(f"_{unit}") for unit in ENDINGS)
