"""The bucket test: how a gardener measures a supply, with a bucket, a watch and maybe a gauge."""

import re

from brimful.errors import QuantityError
from brimful.quantities.dimensions import Dimension
from brimful.quantities.reading import LONGEST, parse
from brimful.records import record

_TEST = re.compile(r"(?P<volume>.+?)\s+in\s+(?P<time>.+?)(?:\s*(?:@|\bat\b)\s*(?P<pressure>.+))?", re.IGNORECASE)
_CLOCK = re.compile(r"(?:(?P<h>[0-9]{1,2}):)?(?P<min>[0-9]{1,2}):(?P<s>[0-5][0-9](?:\.[0-9]+)?)")
_EXAMPLE = '"5 gal in 45 s" or "5 gal in 45 s at 30 psi"'


@record
class BucketTest:
    """A volume caught in a time, and the pressure read meanwhile where there was a gauge [m of water]."""

    volume_l: float
    time_s: float
    pressure_m: float | None = None

    @property
    def flow_l_h(self) -> float:
        """The flow that filled the bucket [L/h]."""
        return self.volume_l / self.time_s * 3600.0


def parse_bucket_test(text: object) -> BucketTest:
    """A bucket test from text: "5 gal in 45 s", "5 gal in 45 s at 30 psi", "19 L in 0:45" (m:ss or h:mm:ss).

    Raises QuantityError, and nothing else, for anything that is not such a test.

    >>> round(parse_bucket_test("19 L in 0:45").flow_l_h, 6)
    1520.0
    """
    match = _TEST.fullmatch(" ".join(text.split())) if isinstance(text, str) and len(text) <= 3 * LONGEST else None
    if match is None:
        given = f'"{text[:40]}"' if isinstance(text, str) else f"a value of type {type(text).__name__}"
        raise QuantityError(f"{given} is not a bucket test; a volume and a time were expected, for example {_EXAMPLE}.")
    volume_l, time_s = parse(match["volume"], Dimension.VOLUME), _time_s(match["time"])
    pressure_m = parse(match["pressure"], Dimension.PRESSURE) if match["pressure"] else None
    test = BucketTest(volume_l, time_s, pressure_m)
    if volume_l <= 0 or time_s <= 0 or (pressure_m or 0) < 0 or not test.flow_l_h < float("inf"):
        raise QuantityError(
            f'"{text}" is not a bucket test: it needs more than nothing of each, for example {_EXAMPLE}.'
        )
    return test


def _time_s(text: str) -> float:
    clock = _CLOCK.fullmatch(text)
    if clock is None:
        return parse(text, Dimension.TIME)
    return int(clock["h"] or 0) * 3600.0 + int(clock["min"]) * 60.0 + float(clock["s"])
