"""A field of the plan in few words, beside the name of its section."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from brimful.catalog import Catalog

SUGGESTED = {
    "Container.type": "containers", "Container.material": "materials", "Containers.mix": "mixes", "Tube.tube": "tubing",
    "Feeder.tube": "tubing", "Tubing.lateral": "tubing", "Zone.lateral": "tubing", "Dripline.type": "driplines",
    "Emitters.type": "emitters", "Planted.plant": "plants", "Planted.size": "root_balls", "Feed.soluble": "feeds",
    "Feed.coated": "feeds", "Planted.colour": "colours", "Supply.devices": "devices",
}  # fmt: skip
"""The table of the catalogue whose keys may stand in a field."""
BRIEF = {"Containers.count": "{} in it", "Containers.apart": "{} apart", "Containers.approach": "{} to the first",
         "Containers.rise": "rising {}", "Containers.rise_last": "", "Containers.heading": "running {}",
         "Site.latitude": "latitude {}", "Site.longitude": "longitude {}", "Site.elevation": "{} above the sea",
         "Tubing.regulator": "regulator {}", "Zone.regulator": "regulator {}"}  # fmt: skip
"""How a field is told beside the name of its section; "" where it is not."""


def in_brief(catalog: "Catalog", name: str, value: object) -> str:
    """A field in few words; a key of the catalogue by the name that people read."""
    table = getattr(catalog, SUGGESTED[name], {}) if name in SUGGESTED else {}
    words = getattr(table.get(value), "name", "") or str(value)
    return BRIEF.get(name, "{}").replace("{}", words)
