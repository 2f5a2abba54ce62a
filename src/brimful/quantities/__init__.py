"""Text ↔ number with unit: the only place that knows unit names. Inside, a quantity is a float in its canonical unit.

>>> parse("2' 6\\"", Dimension.LENGTH)
0.762
>>> show(0.775, Dimension.LENGTH, System.US)
'30 1/2 in'
>>> parse_bucket_test("5 gal in 45 s at 30 psi").time_s
45.0
"""

from brimful.quantities.bucket import BucketTest, parse_bucket_test
from brimful.quantities.dimensions import Dimension, System
from brimful.quantities.reading import parse
from brimful.quantities.showing import in_unit, show, show_number, unit_of

__all__ = [
    "BucketTest",
    "Dimension",
    "System",
    "in_unit",
    "parse",
    "parse_bucket_test",
    "show",
    "show_number",
    "unit_of",
]
