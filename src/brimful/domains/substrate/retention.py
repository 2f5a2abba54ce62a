"""How tightly a mix holds its water: the retention curve after van Genuchten (1980)."""

import math

from brimful.records import record


@record
class Retention:
    """Water content by suction: θ(h) = θr + (θs − θr) / [1 + (α h)^n]^(1 − 1/n).

    Suction h is in metres of water; θr, θs are shares of the mix's volume; α is per metre (100 × the usual 1/cm).
    """

    theta_r: float
    theta_s: float
    alpha_per_m: float
    n: float

    def __post_init__(self) -> None:
        if not (0 <= self.theta_r < self.theta_s <= 1 and 0 < self.alpha_per_m < math.inf and 1 < self.n < math.inf):
            raise ValueError(
                f"θr {self.theta_r}, θs {self.theta_s}, α {self.alpha_per_m} per m, n {self.n} were given; "
                "expected 0 ≤ θr < θs ≤ 1, α above 0, n above 1"
            )

    def theta(self, suction_m: float) -> float:
        """Water content at a suction, share of the mix's volume (van Genuchten 1980).

        Formula: θr + (θs − θr) / [1 + (α h)^n]^m, m = 1 − 1/n.
        Args: suction_m: h [m of water]; 0 or less is saturated
        Returns: [m³/m³]
        Valid: any suction
        Source: van Genuchten 1980, Soil Sci. Soc. Am. J. 44:892 (from memory)

        >>> peat = Retention(0.0, 0.9281, 34.86, 1.4006)
        >>> round(peat.theta(0.10), 4), round(peat.theta(0.50), 4), round(peat.theta(1.00), 4)
        (0.5375, 0.2938, 0.2233)
        """
        if suction_m <= 0:
            return self.theta_s
        bent = math.pow(1.0 + math.pow(self.alpha_per_m * suction_m, self.n), 1.0 / self.n - 1.0)
        return self.theta_r + (self.theta_s - self.theta_r) * bent

    def suction_m(self, theta: float) -> float:
        """The suction at which the mix holds so much water, in metres of water: the curve turned round.

        Formula: h = [Se^(−1/m) − 1]^(1/n) / α, Se = (θ − θr)/(θs − θr).
        Args: theta [m³/m³]
        Returns: [m of water]
        Valid: θr < θ ≤ θs
        Source: van Genuchten 1980 (from memory)
        """
        if not self.theta_r < theta <= self.theta_s:
            raise ValueError(f"θ {theta} was given; expected above θr {self.theta_r} and at most θs {self.theta_s}")
        share = (theta - self.theta_r) / (self.theta_s - self.theta_r)
        bent = math.pow(share, 1.0 / (1.0 / self.n - 1.0)) - 1.0
        return math.pow(bent, 1.0 / self.n) / self.alpha_per_m


@record
class WaterClasses:
    """Volume shares of a mix by how tightly water is held (de Boodt & Verdonck 1972)."""

    aeration: float
    easily_available: float
    buffering: float


def water_classes(mix: Retention) -> WaterClasses:
    """Air, easily available water and buffering water of a mix, shares of its volume (de Boodt & Verdonck 1972).

    Formula: air = θs − θ(10 cm); easily available = θ(10 cm) − θ(50 cm); buffering = θ(50 cm) − θ(100 cm).
    Args: mix
    Returns: shares [1]
    Valid: any retention curve
    Source: de Boodt & Verdonck 1972, Acta Hort. 26 (definitions from memory)
    """
    at_10, at_50, at_100 = (mix.theta(h) for h in (0.10, 0.50, 1.00))
    return WaterClasses(mix.theta_s - at_10, at_10 - at_50, at_50 - at_100)
