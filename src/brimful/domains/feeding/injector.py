"""Injectors: how strong the stock in the bucket must be, and how much of it a watering takes."""

from enum import Enum

STOCK_LIMIT_G_L = 200.0  # about what cold water dissolves of a mixed feed; from memory, no source read


class Ratio(Enum):
    """What "1:100" means on an injector; makers and charts use both, so it is always stated."""

    OF_FINAL = "1 part stock in R parts of finished solution"
    TO_WATER = "1 part stock added to R parts of water"


def dilution(ratio: float, convention: Ratio) -> float:
    """How many times weaker the solution is than the stock [times].

    Formula: R where the ratio counts the finished solution, R + 1 where it counts the water.
    Args: ratio: R of 1:R. convention: what the ratio counts.
    Returns: dilution [-].
    Valid: ratio ≥ 1.
    Source: definitions; of-final as in University of Massachusetts Extension (2011), to-water as on feed label charts.

    >>> dilution(100, Ratio.OF_FINAL), dilution(100, Ratio.TO_WATER)
    (100, 101)
    """
    if not ratio >= 1.0:
        raise ValueError(f"injector ratio is 1:{ratio:g}; expected 1:1 or weaker")
    return ratio if convention is Ratio.OF_FINAL else ratio + 1


def stock_g_l(strength_g_l: float, ratio: float, convention: Ratio) -> float:
    """Grams of feed in each litre of stock for the strength wanted at the containers [g/L].

    Formula: stock = strength × dilution.
    Args: strength_g_l: wanted at the container [g/L]. ratio: R of 1:R. convention: what the ratio counts.
    Returns: feed in the stock [g/L].
    Valid: strength_g_l ≥ 0, ratio ≥ 1.
    Source: conservation of mass.
    """
    if not strength_g_l >= 0.0:
        raise ValueError(f"strength_g_l is {strength_g_l:g}; expected 0 or more")
    return strength_g_l * dilution(ratio, convention)


def strength_from_stock_g_l(stock_strength_g_l: float, ratio: float, convention: Ratio) -> float:
    """Strength at the containers from the stock in the bucket [g/L].

    Formula: strength = stock ÷ dilution.
    Args: stock_strength_g_l: feed in the stock [g/L]. ratio: R of 1:R. convention: what the ratio counts.
    Returns: feed at the container [g/L].
    Valid: stock_strength_g_l ≥ 0, ratio ≥ 1.
    Source: conservation of mass.
    """
    if not stock_strength_g_l >= 0.0:
        raise ValueError(f"stock_strength_g_l is {stock_strength_g_l:g}; expected 0 or more")
    return stock_strength_g_l / dilution(ratio, convention)


def stock_volume_l(solution_l: float, ratio: float, convention: Ratio) -> float:
    """Litres of stock drawn while so much finished solution is delivered [L].

    Formula: stock = solution ÷ dilution.
    Args: solution_l: delivered to the containers [L]. ratio: R of 1:R. convention: what the ratio counts.
    Returns: stock drawn [L].
    Valid: solution_l ≥ 0, ratio ≥ 1.
    Source: conservation of volume.
    """
    if not solution_l >= 0.0:
        raise ValueError(f"solution_l is {solution_l:g}; expected 0 or more")
    return solution_l / dilution(ratio, convention)


def dissolves(stock_strength_g_l: float, *, limit_g_l: float = STOCK_LIMIT_G_L) -> bool:
    """Whether a stock this strong can be made with cold water.

    Args: stock_strength_g_l: feed in the stock [g/L]. limit_g_l: what the feed's bag allows [g/L].
    Returns: True where the feed will dissolve.
    Valid: any strengths.
    Source: limit from memory (about 200 to 240 g/L); the bag knows better.
    """
    return stock_strength_g_l <= limit_g_l


def weakest_ratio(strength_g_l: float, convention: Ratio, *, limit_g_l: float = STOCK_LIMIT_G_L) -> float:
    """The largest R of 1:R that this strength can be fed at without the stock salting out [R].

    Formula: R = limit ÷ strength (less 1 where the ratio counts the water).
    Args: strength_g_l: wanted at the container [g/L]. convention: what the ratio counts. limit_g_l: of the stock [g/L].
    Returns: R; below 1 where no injector can do it.
    Valid: strength_g_l > 0.
    Source: conservation of mass.
    """
    if not strength_g_l > 0.0:
        raise ValueError(f"strength_g_l is {strength_g_l:g}; expected above 0")
    most = limit_g_l / strength_g_l
    return most if convention is Ratio.OF_FINAL else most - 1.0
