"""The way in for the tube under a container: nothing crushed, a hole large enough, and slack to lift it."""

from enum import Enum

from brimful.records import record

CLEARANCE_M = 0.003  # so that the container never rests on the tube; common practice, no source
FEET_LEAST_M = 0.0127  # half an inch of feet, up to an inch; common practice, no source
HOLE_CLEARANCE_M = 0.003  # drain hole wider than the tube, so that water still leaves; common practice, no source
SLACK_M = 0.3  # loop inside the container to pull up and set the emitters; common practice, no source


class Under(Enum):
    """What makes room for the tube under a container."""

    FEET = "feet"
    CHANNEL = "channel"
    NOTHING = "nothing"


@record
class TubeWay:
    """Room for a tube under a container and at its hole [m]; room below zero is a crushed or blocked tube."""

    room_under_m: float
    room_in_hole_m: float

    @property
    def clear(self) -> bool:
        """Whether the tube passes with room to spare both under the base and through the hole."""
        return min(self.room_under_m, self.room_in_hole_m) >= 0.0


def tube_way(tube_outside_m: float, *, under: Under, height_m: float, hole_m: float, tubes: int = 1) -> TubeWay:
    """Room left for a tube under a container and through its drain hole, by its outside diameter [m].

    Formula: under = feet height or channel depth − outside diameter − 3 mm; hole = hole − outside diameter − 3 mm.
    Args: tube_outside_m: outside, not the nominal bore [m]. under: feet, channel or nothing. height_m: of feet or
        channel [m]. hole_m: drain hole [m]. tubes: through the one hole.
    Returns: room under and in the hole [m].
    Valid: all ≥ 0; tubes side by side in the hole.
    Source: geometry; clearances are common practice, no source.
    """
    if not (tube_outside_m > 0.0 and height_m >= 0.0 and hole_m >= 0.0 and tubes >= 1):
        raise ValueError("tube is expected above 0, heights and hole 0 or more, at least one tube")
    height = 0.0 if under is Under.NOTHING else height_m
    return TubeWay(
        height - tube_outside_m - CLEARANCE_M,
        hole_m - tubes * tube_outside_m - HOLE_CLEARANCE_M,
    )


def height_for_tube_m(tube_outside_m: float, under: Under) -> float:
    """Least feet height, or channel depth, that leaves a tube uncrushed [m].

    Formula: outside diameter + 3 mm; feet at least 13 mm.
    Args: tube_outside_m: outside diameter [m]. under: feet or channel.
    Returns: m.
    Valid: tube_outside_m > 0; feet or channel.
    Source: geometry; clearances are common practice, no source.
    """
    if under is Under.NOTHING or not tube_outside_m > 0.0:
        raise ValueError("a way for the tube is expected to be feet or channel, and the tube above 0")
    least = tube_outside_m + CLEARANCE_M
    return max(least, FEET_LEAST_M) if under is Under.FEET else least


def tube_into_container_m(out_to_hole_m: float, inside_height_m: float, *, slack_m: float = SLACK_M) -> float:
    """Tube from the line outside, under the base and up through the mix to the top, with slack [m].

    Formula: along the ground to the hole + inside height + slack.
    Args: out_to_hole_m: from the line to the hole [m]. inside_height_m: base to top of the mix [m]. slack_m: loop [m].
    Returns: m.
    Valid: all ≥ 0.
    Source: geometry; slack is common practice, no source.
    """
    if not min(out_to_hole_m, inside_height_m, slack_m) >= 0.0:
        raise ValueError("distances and slack are expected to be 0 or more")
    return out_to_hole_m + inside_height_m + slack_m
