"""Water."""

from brimful.web.bench import Sight
from brimful.web.leaf import Asked, Leaf, Page


def look(sight: Sight, asked: Asked) -> Leaf:
    """Nothing yet."""
    return Leaf()


PAGE = Page("water", "Water", "water.html", look)
