"""Rows of docs/evidence.md: colour."""

from tests.docs.evidence_row import Row

from brimful.domains.planting.colour import difference, lab_of_hex
from brimful.domains.planting.harmony import harmony

SHARMA = "Sharma, Wu & Dalal 2005, table 1 (in the test data of an open colour library)"
OU = "Ou & Luo 2006, equations as in three public transcriptions"

ROWS = (
    Row("CIEDE2000 of the first published pair", SHARMA, "read", "2.0425",
        lambda: difference((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485)), 5e-5),
    Row("the same across the hue's seam", SHARMA, "read", "7.2195",
        lambda: difference((50.0, 2.49, -0.001), (50.0, -2.49, 0.0011)), 5e-5),
    Row("the same of a far pair", SHARMA, "read", "27.1492",
        lambda: difference((50.0, 2.5, 0.0), (73.0, 25.0, -18.0)), 5e-5),
    Row("harmony of red with blue", OU, "calculated", "-0.6839",
        lambda: harmony(lab_of_hex("#FF0000"), lab_of_hex("#0000FF")), 5e-5),
    Row("harmony of white with black", OU, "calculated", "0.5495",
        lambda: harmony(lab_of_hex("#FFFFFF"), lab_of_hex("#000000")), 5e-5),
)  # fmt: skip
