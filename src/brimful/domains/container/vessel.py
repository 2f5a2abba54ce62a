"""A container as it stands: outside shape, inside shape by wall and base, a false bottom, the room for mix."""

from collections.abc import Callable
from dataclasses import replace

from brimful.domains.container import forms
from brimful.domains.container.shape import Shape
from brimful.records import record


@record
class Sizes:
    """Sizes one measures with a tape [m]; the second widths are the short sides of a rectangular container.

    `bottom_m` of a bowl is its flat foot. `diameters_m` are an urn's (height, diameter) pairs from the ground up.
    """

    height_m: float
    top_m: float = 0.0
    bottom_m: float = 0.0
    top_width_m: float = 0.0
    bottom_width_m: float = 0.0
    diameters_m: tuple[tuple[float, float], ...] = ()


def _rectangle(s: Sizes) -> Shape:
    return forms.rectangular_taper(
        s.top_m, s.top_width_m, bottom_length_m=s.bottom_m, bottom_width_m=s.bottom_width_m, height_m=s.height_m
    )


def _square(s: Sizes) -> Shape:
    return _rectangle(replace(s, top_width_m=s.top_m, bottom_width_m=s.bottom_m))


FORMS: dict[str, Callable[[Sizes], Shape]] = {
    "round": lambda s: forms.round_taper(s.top_m, s.bottom_m, s.height_m),
    "square": _square,
    "rectangular": _rectangle,
    "bowl": lambda s: forms.spherical_bowl(s.top_m, s.height_m, foot_m=s.bottom_m),
    "deep-bowl": lambda s: forms.ellipsoid_bowl(s.top_m, s.height_m, foot_m=s.bottom_m),
    "urn": lambda s: forms.urn(s.diameters_m),
}
"""Every form by its name; "bowl" is part of a sphere, "deep-bowl" half of an ellipsoid."""


@record
class Vessel:
    """A container: outside and inside shape, and how high a false bottom or reservoir stands inside [m]."""

    outside: Shape
    inside: Shape
    floor_m: float = 0.0

    def __post_init__(self) -> None:
        if not 0.0 <= self.floor_m < self.inside.depth_m:
            raise ValueError(
                f"a false bottom at {self.floor_m} m was given; expected 0 to below {self.inside.depth_m} m"
            )

    @property
    def shell_volume_l(self) -> float:
        """Volume of the wall and base themselves: outside less inside [L]."""
        return self.outside.volume_l() - self.inside.volume_l()

    @property
    def reservoir_volume_l(self) -> float:
        """Volume under the false bottom [L]."""
        return self.inside.volume_l(0.0, self.floor_m)

    def fill(self, headspace_m: float) -> Shape:
        """The room that mix takes: from the false bottom to the headspace under the rim, a shape of its own.

        Args: headspace_m: from rim down to the mix [m]
        Returns: the shape of the mix; its height is the fill depth, its volume the fill volume
        Valid: headspace at least 0 and less than the room above the false bottom
        Source: solid geometry; headspace 1 to 1.5 in medium pots, up to 2 in very large ones (read)
        """
        line = self.inside.depth_m - headspace_m
        if not (headspace_m >= 0 and line > self.floor_m):
            room = self.inside.depth_m - self.floor_m
            raise ValueError(
                f"headspace {headspace_m} m was given; expected 0 to below the {room:.3f} m of room inside"
            )
        return self.inside.cut(self.floor_m, line)


def vessel(form: str, outside: Sizes, *, wall_m: float, base_m: float, floor_m: float = 0.0) -> Vessel:
    """A container from its outside sizes, the thickness of wall and base, and the height of a false bottom.

    Formula: inside width = outside width − 2 walls, at rim and at bottom alike; inside depth = height − base.
    An urn keeps its profile: the inside follows the outside, one wall in, and starts on top of the base.
    Args: form: a name of FORMS; outside: sizes [m]; wall_m, base_m: thicknesses [m]; floor_m: false bottom [m]
    Returns: the container
    Valid: wall and base thinner than the container
    Source: solid geometry

    >>> pot = vessel("round", Sizes(0.635, 0.7874, 0.6604), wall_m=0.04445, base_m=0.0508)
    >>> round(pot.fill(0.0508).volume_l(), 1)
    166.5
    """
    if form not in FORMS:
        raise ValueError(f'form "{form}" was given; expected one of {", ".join(FORMS)}')
    if not (wall_m >= 0 and base_m >= 0):
        raise ValueError(f"wall {wall_m} m and base {base_m} m were given; expected 0 m or more")
    build = FORMS[form]
    return Vessel(build(_whole(form, outside)), build(_inside(form, outside, wall_m, base_m)), floor_m)


def _whole(form: str, s: Sizes) -> Sizes:
    """An urn's height is that of its last diameter; where both are given they must agree."""
    if form == "urn" and s.diameters_m and abs(s.diameters_m[-1][0] - s.height_m) > 1e-6:
        raise ValueError(
            f"height {s.height_m} m and a last diameter at {s.diameters_m[-1][0]} m were given; expected the same"
        )
    return s


def _inside(form: str, s: Sizes, wall_m: float, base_m: float) -> Sizes:
    if s.height_m <= base_m:
        raise ValueError(f"base {base_m} m under a height of {s.height_m} m was given; expected a thinner base")
    if form == "urn":
        return Sizes(s.height_m - base_m, diameters_m=_inner_profile(s.diameters_m, wall_m, base_m))
    inner = {name: getattr(s, name) - 2 * wall_m for name in ("top_m", "bottom_m", "top_width_m", "bottom_width_m")}
    if form in ("bowl", "deep-bowl"):
        inner["bottom_m"] = max(0.0, inner["bottom_m"])
    if inner["top_m"] <= 0:
        raise ValueError(
            f"wall {wall_m} m in a width of {s.top_m} m was given; expected a wall thinner than half the width"
        )
    return replace(s, height_m=s.height_m - base_m, **inner)


def _inner_profile(
    diameters_m: tuple[tuple[float, float], ...], wall_m: float, base_m: float
) -> tuple[tuple[float, float], ...]:
    """An urn's profile above its base, one wall in, heights counted from the base."""
    profile = forms.urn(diameters_m)
    heights = [base_m, *(h for h, _ in diameters_m if h > base_m)]
    return tuple((h - base_m, profile.width_m(h) - 2 * wall_m) for h in heights)
