"""Rows about feed: what a bag's label says, and how a coated feed lets go."""

from collections.abc import Iterator

from brimful.catalog.cells import choice, number, text
from brimful.catalog.rows.row import Row
from brimful.records import record


@record(kw_only=True)
class Feed(Row):
    """A feed by its label; rated days and rate for coated feed, rise of EC for each 100 ppm N for soluble feed."""

    table = "feeds"
    name: str = text("name")
    kind: str = choice("kind", "soluble", "coated")
    nitrogen_percent: float = number("nitrogen_percent", 0.1, 100)
    phosphate_percent: float = number("phosphate_percent", 0, 100)
    potash_percent: float = number("potash_percent", 0, 100)
    rated_days: float | None = number("rated_days", 10, 1000, optional=True)
    reference_c: float | None = number("reference", 0, 50, unit="c", optional=True)
    rate_g_l: float | None = number("rate_g_l", 0.01, 50, optional=True)
    ec_rise_ms_cm: float | None = number("ec_rise_ms_cm", 0.01, 5, optional=True)

    def faults(self) -> Iterator[str]:
        """The label adds up to the bag at most; a coated feed says how long it lasts and how much goes in."""
        total = self.nitrogen_percent + self.phosphate_percent + self.potash_percent
        if total > 100:
            yield f"label percentages that add up to {total:g} were given; expected at most 100"
        if self.kind == "coated" and None in (self.rated_days, self.reference_c, self.rate_g_l):
            yield "a coated feed was given; expected its rated_days, reference_c and rate_g_l"
