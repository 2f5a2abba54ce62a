"""What lies on the desk while a plan's planting is worked out."""

from collections.abc import Mapping
from dataclasses import field
from datetime import date

from brimful.catalog import Catalog, Plant
from brimful.design.climate import Climate
from brimful.design.growing import RowGrown
from brimful.design.ledger import Ledger
from brimful.design.model import TubeWorked
from brimful.design.planting.days import SiteDays
from brimful.design.settle import Settled
from brimful.design.settle.notes import Notes
from brimful.plan.schema import Plan
from brimful.records import record


@record
class PlantingDesk:
    """The plan, settled and grown in its climate; tables, notes, the days it stands; by row the hours of direct sun of
    each container, where they are known; plants on hand by item; the day it is, where that matters; by row how its tube
    lies."""

    plan: Plan
    settled: Settled
    grown: tuple[RowGrown, ...]
    climate: Climate
    catalog: Catalog
    notes: Notes
    days: SiteDays
    sun_h: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    on_hand: Mapping[str, float] = field(default_factory=dict)
    today: date | None = None
    tubes: Mapping[str, TubeWorked] = field(default_factory=dict)
    ledger: Ledger = field(default_factory=Ledger)

    @property
    def planted(self) -> date:
        """The day of planting."""
        return self.days.planted

    @property
    def removed(self) -> date:
        """The season's end."""
        return self.days.removed

    @property
    def plants(self) -> dict[str, Plant]:
        """The plants of the catalogue, with months of bloom as they are at the place."""
        southern = (self.plan.site.latitude or 0.0) < 0
        return {key: plant.in_south() if southern else plant for key, plant in self.catalog.plants.items()}

    def sun_of_row(self, row: str) -> float | None:
        """Hours of direct sun of a row, mean of its containers; None where they are not known."""
        hours = self.sun_h.get(row)
        return sum(hours) / len(hours) if hours else None
