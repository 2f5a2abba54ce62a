"""Learning from the season: what readings tell about each container's water, demand and supply, and what is wrong.

    site  = Site(capacity_l=…, stress_l=…, flow_l_h=…, row=…, zone=…, empty_kg=…, dry_l=…, dry_capture=…)
    days  = Days(demand_l=…, minutes=…, rain_mm=…, rain_litres_per_mm=…)      # the plan's, demand factor 1
    told  = [Reading(12, 3, "finger", DRY), Reading(13, 3, "catch", 1.9, minutes=10.0), Reading(13, 0, "rain", 4.2)]
    track = follow(site, days, told, seed=1, report_days=(13, -1))
    track.beliefs[-1].store_share.mean, .low, .high      # (containers,), 90 % interval; likewise the factors
    for one in suspects(track.beliefs[-1].causes):       # containers to look at, surest first
        one.container, one.chance, one.ranked[:2], one.test.key, one.test.minutes, one.bits
    after_test(one.test, outcome, chances)               # the causes once the test is made

Arrays run over containers in the caller's order; days and containers count from 0. A reading is taken at one hour of
the day (Days.read_share of its demand is past). Kinds of readings: KINDS, one row each; causes: CAUSES; tests:
FIELD_TESTS. "mended" tells that a container has been put right. The whole season is followed anew from its readings
each time: nothing is stored, and the same seed and readings give the same answer. To look ahead, give days beyond the
last reading and ask for their belief; believed_on gives that of one day in less time.
two_dry is the plain rule to compare with.
"""

from brimful.domains.learning.belief import INTERVAL, Belief, Estimate
from brimful.domains.learning.causes import (
    LOOK_SHARE,
    Suspect,
    after_test,
    entropy_bits,
    expected_bits,
    quickest_test,
    suspect,
    suspects,
)
from brimful.domains.learning.faults import CAUSE_KEYS, CAUSES, NOTHING, Cause
from brimful.domains.learning.field_tests import FIELD_TESTS, FieldTest
from brimful.domains.learning.filter import Track, believed_on, follow, held_untold_l
from brimful.domains.learning.inputs import Days, Reading, ReadingErrors, Settings, Site
from brimful.domains.learning.kinds import DRY, KINDS, MOIST, WET, Kind
from brimful.domains.learning.threshold import two_dry

__all__ = [
    "CAUSES",
    "CAUSE_KEYS",
    "DRY",
    "FIELD_TESTS",
    "INTERVAL",
    "KINDS",
    "LOOK_SHARE",
    "MOIST",
    "NOTHING",
    "WET",
    "Belief",
    "Cause",
    "Days",
    "Estimate",
    "FieldTest",
    "Kind",
    "Reading",
    "ReadingErrors",
    "Settings",
    "Site",
    "Suspect",
    "Track",
    "after_test",
    "believed_on",
    "entropy_bits",
    "expected_bits",
    "follow",
    "held_untold_l",
    "quickest_test",
    "suspect",
    "suspects",
    "two_dry",
]
