"""Plants."""

from brimful.web.bench import Sight
from brimful.web.leaf import Asked, Leaf, Page


def look(sight: Sight, asked: Asked) -> Leaf:
    """Nothing yet."""
    return Leaf()


PAGE = Page("plants", "Plants", "plants.html", look)
