"""Container geometry: inside shape, room for mix, mix to buy, weight (exact integrals of the area over the height)."""

from brimful.domains.container.forms import ellipsoid_bowl, rectangular_taper, round_taper, spherical_bowl, urn
from brimful.domains.container.mix import ROOT_BALL_SHARE, SETTLING_SHARE, bags, mix_to_buy_l, root_ball_l
from brimful.domains.container.shape import Shape, Sides, Slice
from brimful.domains.container.vessel import FORMS, Sizes, Vessel, vessel
from brimful.domains.container.weight import Water, Weights, planted_weights, shell_kg

__all__ = [
    "FORMS",
    "ROOT_BALL_SHARE",
    "SETTLING_SHARE",
    "Shape",
    "Sides",
    "Sizes",
    "Slice",
    "Vessel",
    "Water",
    "Weights",
    "bags",
    "ellipsoid_bowl",
    "mix_to_buy_l",
    "planted_weights",
    "rectangular_taper",
    "root_ball_l",
    "round_taper",
    "shell_kg",
    "spherical_bowl",
    "urn",
    "vessel",
]
