"""Choose what the plan leaves open: emission, regulator, lateral and main, for least cost within the limits."""

from brimful.design.choose.search import Choices, choose_open, fill_choices

__all__ = ["Choices", "choose_open", "fill_choices"]
