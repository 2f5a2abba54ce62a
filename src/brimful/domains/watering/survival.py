"""How long containers last when their zone stands still: a stuck valve, a crew away."""

import numpy as np

from brimful.domains.watering.guards import require_share
from brimful.domains.watering.season import FloatArray, Store

_LONGEST_DAYS = 60
LIMP_SHARE = 1.0
"""Share of the stress level at which plants visibly limp."""


def days_without_water(
    store: Store, demand_l_day: FloatArray, months: FloatArray, *, risk: float = 0.05, limp_share: float = LIMP_SHARE
) -> FloatArray:
    """Whole days each container lasts from full without a drop, in each month, in the wanted share of cases.

    Formula: days until the summed demand passes capacity − stress level, plus, where a drier end is asked for,
    stress level × ln(1 / share), because plants draw less and less below it.

    Args:
        store: what the mixes hold
        demand_l_day: demand of each day, year and container [L/day], (days, years, containers)
        months: month of each day, 1–12, (days,)
        risk: share of start days and years that may last shorter [-]
        limp_share: end of the count as a share of the stress level, above 0 up to 1 [-]
    Returns: days, (12, containers); nan for months outside the season; at most 60
    Valid: no rain; the last day's demand goes on past the end of the season
    Source: FAO-56 eq. 84 solved for constant conditions (read)
    """
    require_share(risk=risk)
    if not 0.0 < limp_share <= 1.0 or demand_l_day.shape[0] != months.size:
        raise ValueError(
            f"limp_share is {limp_share}, {months.size} months for {demand_l_day.shape[0]} days: "
            "expected a share above 0 up to 1, and one month for each day"
        )
    room = store.capacity_l - store.stress_l - store.stress_l * np.log(limp_share)
    lasted = _lasted(demand_l_day, room)
    result = np.full((12, store.capacity_l.size), np.nan)
    for month in np.unique(months).astype(int):
        cases = lasted[months == month].reshape(-1, store.capacity_l.size)
        result[month - 1] = np.quantile(cases, risk, axis=0, method="lower")
    return result


def _lasted(demand_l_day: FloatArray, room_l: FloatArray) -> FloatArray:
    """Whole days from each day on before the summed demand passes the room."""
    tail = np.repeat(demand_l_day[-1:], _LONGEST_DAYS, axis=0)
    summed = np.cumsum(np.concatenate([np.zeros_like(tail[:1]), demand_l_day, tail]), axis=0)
    days = demand_l_day.shape[0]
    lasted = np.zeros(demand_l_day.shape)
    for ahead in range(1, _LONGEST_DAYS + 1):
        holds = summed[ahead : ahead + days] - summed[:days] <= room_l
        if not holds.any():
            break
        lasted += holds
    return lasted
