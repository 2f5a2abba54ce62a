"""A recipe: which plants, how many, in which layer, and from where they are seen. Problems come back as data."""

from dataclasses import replace

from brimful.domains.planting.taxon import ROLES
from brimful.records import record

VIEWS = ("all-round", "one-sided")
MOST_PLANTS = 300
"""More in one container is a slip of the keyboard, or bulbs, which are set by area and not one by one."""


@record
class Problem:
    """What does not work: a short code, words, what to do, and the two figures behind it in SI if any."""

    code: str
    message: str
    remedy: str
    given: float | None = None
    expected: float | None = None


@record
class Part:
    """So many plants of one taxon in one layer, and the root ball they come with [m]; square pots by their side."""

    key: str
    role: str
    count: int
    ball_width_m: float
    ball_depth_m: float

    def __post_init__(self) -> None:
        if self.role not in ROLES:
            raise ValueError(f'role "{self.role}" was given for {self.key}: expected one of {", ".join(ROLES)}')
        if not (self.ball_width_m > 0.0 and self.ball_depth_m > 0.0):
            raise ValueError(
                f"root ball of {self.key} is {self.ball_width_m} × {self.ball_depth_m} m: expected above 0"
            )


@record
class Recipe:
    """Plants of a container by layers, drawn with the front downwards; `front` is the taxon that stands there."""

    parts: tuple[Part, ...]
    view: str = "all-round"
    front: str | None = None

    def __post_init__(self) -> None:
        if self.view not in VIEWS:
            raise ValueError(f'view "{self.view}" was given: expected one of {", ".join(VIEWS)}')

    @property
    def total(self) -> int:
        """How many plants."""
        return sum(part.count for part in self.parts)

    def layer(self, role: str) -> tuple[Part, ...]:
        """The parts of one layer that have plants."""
        return tuple(part for part in self.parts if part.role == role and part.count > 0)

    def with_counts(self, counts: tuple[int, ...]) -> "Recipe":
        """The same recipe with other counts; parts that fall to 0 are left out."""
        pairs = zip(self.parts, counts, strict=True)
        return replace(self, parts=tuple(replace(part, count=count) for part, count in pairs if count > 0))


def recipe_problems(recipe: Recipe) -> tuple[Problem, ...]:
    """What is wrong with a recipe in any container: no plants, far too many, a front that cannot be."""
    problems = []
    if recipe.total <= 0 or any(part.count < 0 for part in recipe.parts):
        message = f"{recipe.total} plants are given for a container; expected 1 or more"
        problems.append(Problem("plant-count", message, "Give a count to each plant."))
    if recipe.total > MOST_PLANTS:
        message = f"{recipe.total} plants are given for one container; expected at most {MOST_PLANTS}"
        problems.append(Problem("plant-count", message, "Check the counts; they are for one container."))
    front = next((part for part in recipe.parts if part.key == recipe.front and part.count > 0), None)
    if recipe.front is not None and front is None:
        message = f"{recipe.front} is to stand at the front, but is not among the plants"
        problems.append(Problem("front", message, "Name one of the container's plants, or leave the front out."))
    low = recipe.layer("mounding") + recipe.layer("trailing")
    if front is not None and front.role == "upright" and low:
        message = f"{front.key} is to stand at the front, but uprights stand at the centre or the back"
        problems.append(Problem("front", message, "Put a mounding or trailing plant at the front."))
    return tuple(problems)
