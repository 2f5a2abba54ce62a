"""Settle a plan: names looked up, silences filled by assumptions that are listed, contradictions found."""

from brimful.design.settle.settled import PlantSpec, RowSpec, Settled, ZoneSpec
from brimful.design.settle.whole import settle

__all__ = ["PlantSpec", "RowSpec", "Settled", "ZoneSpec", "settle"]
