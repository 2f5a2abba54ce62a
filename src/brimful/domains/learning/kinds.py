"""Kinds of readings: one row each, with what a reading of it makes likely."""

from collections.abc import Callable

import numpy as np

from brimful.domains.learning.inputs import FloatArray, Reading, ReadingErrors
from brimful.records import record

DRY, MOIST, WET = 0.0, 1.0, 2.0
"""Values of a finger test."""


@record
class Seen:
    """What the particles of the containers read say, and what was read; all broadcast to (read, causes, particles)."""

    water_l: FloatArray
    capacity_l: FloatArray
    """As designed: a blocked drain can hold more."""
    hand: FloatArray
    """How much drier than most the hand calls a mix, share of the store."""
    supply_l_h: FloatArray
    """What its emitters give while the zone runs."""
    metered_l: FloatArray
    """What the meter counts for it this day."""
    empty_kg: FloatArray
    value: FloatArray
    minutes: FloatArray
    others_mean_l: FloatArray
    """What the meter counts for the rest of the zone."""
    others_variance_l2: FloatArray


Likelihood = Callable[[Seen, ReadingErrors], FloatArray]


@record
class Kind:
    """One kind of reading."""

    key: str
    unit: str
    least: float
    most: float
    likelihood: Likelihood | None
    """None for what is not weighed but taken as it is: rain, minutes run, a mend."""
    needs_minutes: bool = False


def finger_chances(share: FloatArray, errors: ReadingErrors) -> FloatArray:
    """Chances that a finger tells dry, moist and wet of a store this full.

    Formula: logistic steps at two thresholds, mixed with the share of tests that tell nothing (a third each).

    Args:
        share: store over capacity [-], any shape
        errors: thresholds, softness, wrong share
    Returns: [-], (3, …), adds up to 1
    Valid: share 0 or more
    Source: common practice, no source
    """
    past_dry, past_wet = (
        1.0 / (1.0 + np.exp(-np.clip((share - at) / errors.finger_soft, -60.0, 60.0)))
        for at in (errors.finger_dry, errors.finger_wet)
    )
    told = np.stack([1.0 - past_dry, np.maximum(past_dry - past_wet, 0.0), past_wet])
    result: FloatArray = (1.0 - errors.finger_wrong) * told + errors.finger_wrong / 3.0
    return result


def _finger(seen: Seen, errors: ReadingErrors) -> FloatArray:
    """A finger test."""
    chances = finger_chances(seen.water_l / seen.capacity_l - seen.hand, errors)
    picked: FloatArray = np.where(seen.value < MOIST, chances[0], np.where(seen.value < WET, chances[1], chances[2]))
    return np.log(picked)


def _probe(seen: Seen, errors: ReadingErrors) -> FloatArray:
    """A probe, percent of what the drained mix holds."""
    return _bell(seen.value / 100.0, seen.water_l / seen.capacity_l, errors.probe, 1.0, errors.wrong)


def _weight(seen: Seen, errors: ReadingErrors) -> FloatArray:
    """A container on the scales: a litre is a kilogram."""
    expected = seen.empty_kg + seen.water_l
    return _bell(seen.value, expected, errors.weight_kg, seen.capacity_l, errors.wrong)


def _catch(seen: Seen, errors: ReadingErrors) -> FloatArray:
    """Water caught from all emitters of a container in so many minutes."""
    given = seen.supply_l_h * seen.minutes / 60.0
    spread = errors.catch * given + 0.02
    return _bell(seen.value, given, spread, np.maximum(given, 0.1), errors.wrong)


def _meter(seen: Seen, errors: ReadingErrors) -> FloatArray:
    """The zone's meter: this container's water and what is believed of the others."""
    expected = seen.metered_l + seen.others_mean_l
    spread = np.sqrt(seen.others_variance_l2 + (errors.meter * seen.value) ** 2 + 1e-6)
    return _bell(seen.value, expected, spread, np.maximum(seen.others_mean_l, 1.0), errors.wrong)


def _bell(
    value: FloatArray, expected: FloatArray, spread: FloatArray | float, width: FloatArray | float, wrong: float
) -> FloatArray:
    """Log of a bell mixed with the share of readings that tell nothing, these spread over a width."""
    z = (value - expected) / spread
    if wrong == 0.0:
        result: FloatArray = -0.5 * z * z - np.log(spread * np.ones_like(z))
        return result
    bell = np.exp(-0.5 * np.minimum(z * z, 1400.0)) / (np.sqrt(2.0 * np.pi) * spread)
    mixed: FloatArray = np.log((1.0 - wrong) * bell + wrong / width)
    return mixed


KINDS: dict[str, Kind] = {
    kind.key: kind
    for kind in (
        Kind("finger", "dry, moist or wet", DRY, WET, _finger),
        Kind("probe", "%", 0.0, 200.0, _probe),
        Kind("weight", "kg", 0.0, 5000.0, _weight),
        Kind("catch", "L", 0.0, 1000.0, _catch, needs_minutes=True),
        Kind("meter", "L", 0.0, 1e6, _meter),
        Kind("rain", "mm", 0.0, 1000.0, None),
        Kind("ran", "min", 0.0, 1440.0, None),
        Kind("mended", "-", 0.0, 1.0, None),
    )
}
"""finger, probe, weight: the store. catch, meter: the supply. rain (gauge) and ran (minutes the zone ran) replace the
day's rain and schedule. mended: whatever was wrong at this container has been put right."""


def require_readings(readings: tuple[Reading, ...], days: int, empty_kg: FloatArray) -> None:
    """Refuse readings that no container, day or kind can have given.

    Raises:
        ValueError: naming the reading, what was expected, and what to do
    """
    for reading in readings:
        kind = KINDS.get(reading.kind)
        if kind is None:
            raise ValueError(f"{reading}: kind is {reading.kind!r}, expected one of {', '.join(KINDS)}")
        if not (0 <= reading.day < days and 0 <= reading.container < empty_kg.size):
            raise ValueError(f"{reading}: expected a day of 0–{days - 1} and a container of 0–{empty_kg.size - 1}")
        if not kind.least <= reading.value <= kind.most:
            raise ValueError(f"{reading}: value is {reading.value}, expected {kind.least:g}–{kind.most:g} {kind.unit}")
        if kind.needs_minutes and not reading.minutes > 0.0:
            raise ValueError(f"{reading}: minutes is {reading.minutes}, expected how long the test ran, above 0")
        if reading.kind == "weight" and np.isnan(empty_kg[reading.container]):
            raise ValueError(f"{reading}: the empty weight of this container is not known, give empty_kg")
