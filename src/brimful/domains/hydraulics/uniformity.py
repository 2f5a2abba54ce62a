"""How evenly a zone waters: the measures, their classes and the run time they cost."""

import math
from collections.abc import Callable, Sequence


def _flows(flows: Sequence[float]) -> list[float]:
    values = [float(q) for q in flows]
    if not values or any(not (math.isfinite(q) and q >= 0) for q in values) or sum(values) == 0:
        raise ValueError(f"{len(values)} flows were given; expected at least one, all 0 or more, not all 0")
    return values


def emission_uniformity(least_l_h: float, mean_l_h: float, *, cv: float, per_plant: float) -> float:
    """Evenness that a design may expect of its emitters, in percent (EU; Keller & Karmeli 1974, ASABE EP405).

    Formula: EU = 100·(1 - 1.27·Cv/√n)·q_min/q_avg.

    Args:
        least_l_h: flow of the emitter with the least pressure [L/h]; mean_l_h: mean flow of all [L/h]
        cv: variation of new emitters, a fraction [-]; per_plant: emitters that share one plant or container [-]
    Returns: EU [%], never below 0
    Valid: Cv 0 to 1, at least one emitter a plant
    Source: Keller & Karmeli (1974) as in ASABE EP405 (read in secondary sources)

    >>> round(emission_uniformity(3.8, 4.0, cv=0.05, per_plant=1), 2)
    88.97
    """
    if not 0 <= cv <= 1:
        raise ValueError(f"Cv {cv} was given; expected a fraction from 0 to 1")
    if per_plant < 1 or mean_l_h <= 0 or least_l_h < 0:
        raise ValueError(
            f"flows {least_l_h}, {mean_l_h} L/h, {per_plant} emitters a plant; expected 1 or more, flow above 0"
        )
    return max(0.0, 100.0 * (1.0 - 1.27 * cv / math.sqrt(per_plant)) * least_l_h / mean_l_h)


def christiansen_uniformity(flows: Sequence[float]) -> float:
    """Evenness by the mean departure from the mean, in percent (CU; Christiansen 1942).

    Formula: CU = 100·(1 - Σ|q - mean| / (n·mean)).

    Args:
        flows: flows or catches, any unit [n]
    Returns: CU [%]; below 0 where the flows are wildly uneven
    Valid: at least one flow above 0
    Source: Christiansen (1942), as documented in a statistics package (read)

    >>> catch = [47, 42, 45, 24, 13, 26, 33, 34, 27, 30, 40, 44, 32, 12, 12]
    >>> round(christiansen_uniformity(catch), 4)
    69.1396
    """
    values = _flows(flows)
    mean = math.fsum(values) / len(values)
    return 100.0 * (1.0 - math.fsum(abs(q - mean) for q in values) / (len(values) * mean))


def low_quarter_uniformity(flows: Sequence[float]) -> float:
    """Mean of the driest quarter over the mean of all, in percent (DUlq; the field measure of emission uniformity).

    Formula: DUlq = 100·mean(lowest quarter)/mean(all), the quarter rounded to whole values, at least one.

    Args:
        flows: flows or catches, any unit [n]
    Returns: DUlq [%], 0 to 100
    Valid: at least one flow above 0; 24 or more for a field test
    Source: UC ANR field sheets (read)

    >>> catch = [47, 42, 45, 24, 13, 26, 33, 34, 27, 30, 40, 44, 32, 12, 12]
    >>> round(low_quarter_uniformity(catch), 5)
    49.62039
    """
    values = sorted(_flows(flows))
    quarter = max(1, math.floor(len(values) / 4 + 0.5))
    return 100.0 * (math.fsum(values[:quarter]) / quarter) / (math.fsum(values) / len(values))


def variation(flows: Sequence[float]) -> float:
    """Coefficient of variation, a fraction: sample standard deviation over mean (Cv = s/mean, n - 1).

    >>> flows = [1.98, 2.04, 2.01, 1.95, 2.08, 1.90, 2.02, 1.99, 2.05, 1.93, 2.00, 2.06]
    >>> round(variation(flows), 5)
    0.02716
    """
    values = _flows(flows)
    if len(values) < 2:
        raise ValueError("one flow was given; expected at least two")
    mean = math.fsum(values) / len(values)
    return math.sqrt(math.fsum((q - mean) ** 2 for q in values) / (len(values) - 1)) / mean


def statistical_uniformity(flows: Sequence[float]) -> float:
    """Evenness by the standard deviation, in percent (Us = 100·(1 - s/mean); Bralts, from memory)."""
    return 100.0 * (1.0 - variation(flows))


def combined_variation(head_cv: float, maker_cv: float, *, exponent: float, per_plant: float = 1) -> float:
    """Variation of emitter flow from heads and making together, a fraction (Vq² = x²·Vh² + Vm²/n; Bralts, from memory).

    >>> round(combined_variation(0.06, 0.05, exponent=0.5), 5)
    0.05831
    """
    if per_plant < 1:
        raise ValueError(f"{per_plant} emitters a plant were given; expected at least 1")
    return math.sqrt((exponent * head_cv) ** 2 + maker_cv**2 / per_plant)


def least_flow_for(eu_percent: float, mean_l_h: float, *, cv: float, per_plant: float) -> float:
    """The least emitter flow in L/h that a wanted EU allows: emission_uniformity turned round.

    >>> round(least_flow_for(90, 4.0, cv=0.05, per_plant=1), 4)
    3.8441
    """
    if not 0 < eu_percent <= 100 or per_plant < 1:
        raise ValueError(f"EU {eu_percent} %, {per_plant} emitters a plant; expected 0 to 100 %, at least 1")
    return eu_percent / 100.0 * mean_l_h / (1.0 - 1.27 * cv / math.sqrt(per_plant))


RUN_TIME_RULES: dict[str, Callable[[float], float]] = {
    "low quarter": lambda du: 1.0 / du,  # all but about an eighth of the plants get enough (from memory)
    "tempered": lambda du: 1.0 / (0.4 + 0.6 * du),  # irrigation trade association (from memory)
    "low half": lambda du: 1.0 / (0.386 + 0.614 * du),  # 1/DUlh with the normal-law link (from memory)
}


def run_time_multiplier(du_lq_percent: float, rule: str = "low quarter") -> float:
    """How many times longer to run so that the driest containers get enough (1/DUlq, or a milder rule by name).

    Formula: "low quarter" 1/DU; "tempered" 1/(0.4 + 0.6·DU); "low half" 1/(0.386 + 0.614·DU).

    Args:
        du_lq_percent: DUlq [%]; rule: one of RUN_TIME_RULES
    Returns: multiplier [-], at least 1
    Valid: DUlq above 0 and up to 100 %; containers drain apart, so soil does not even them out: prefer "low quarter"
    Source: from memory; choice of rule common practice, no source

    >>> round(run_time_multiplier(80.0), 4), round(run_time_multiplier(80.0, "low half"), 4)
    (1.25, 1.14)
    """
    if not 0 < du_lq_percent <= 100:
        raise ValueError(f"DUlq {du_lq_percent} % was given; expected above 0 and up to 100")
    if rule not in RUN_TIME_RULES:
        raise ValueError(f"rule {rule!r} was given; expected one of {', '.join(RUN_TIME_RULES)}")
    return RUN_TIME_RULES[rule](du_lq_percent / 100.0)


_EMITTER_CLASSES = (
    (0.05, 0.10, "excellent to good"),
    (0.07, 0.20, "average"),
    (0.11, math.inf, "marginal"),
    (0.15, math.inf, "poor"),
)


def emitter_class(cv: float, *, line_source: bool = False) -> str:
    """How evenly emitters are made, in words, by their Cv (classes of ASABE EP405.1, from memory).

    >>> emitter_class(0.04), emitter_class(0.09)
    ('excellent to good', 'marginal')
    """
    if not cv >= 0:
        raise ValueError(f"Cv {cv} was given; expected 0 or more")
    for point, line, words in _EMITTER_CLASSES:
        if cv < (line if line_source else point):
            return words
    return "unacceptable"
