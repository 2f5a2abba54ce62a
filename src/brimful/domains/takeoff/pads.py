"""Pads and trenches: base, bedding, bricks, edging, joint sand, digging."""

from math import ceil

from brimful.records import record

BREAKAGE = 0.05  # brick industry guide as told in a trade article, read
BRICKS_PER_CUT_M = 1.5 / 0.3048  # 1.5 bricks a foot of cut edge, same source, read
LOOSE_FROM_COMPACTED = 1.2  # dense-graded 1.15 to 1.3; common practice, no source
SWELL = 1.25  # bank to loose; clay 1.3 to 1.4; common practice, no source
BASE_MARGIN_M = 0.1524  # base 6 in wider on each side; trade press on pavers, read
BEDDING_M = 0.0254  # 1 in of sand, never thicker; concrete paver institute guides as told in a calculator, read
BASE_FOOT_M = 0.1016  # 4 in for foot traffic and pads, same source
BASE_DRIVE_M = 0.1524  # 6 in under vehicles, or on clay and fill, same source


@record
class Brick:
    """One brick or paver as laid: length, width, thickness, and the joint round it [m]."""

    length_m: float
    width_m: float
    thickness_m: float
    joint_m: float = 0.0

    def __post_init__(self) -> None:
        if not (min(self.length_m, self.width_m, self.thickness_m) > 0.0 and self.joint_m >= 0.0):
            raise ValueError(f"a brick is expected to have sizes above 0 and a joint of 0 or more, got {self}")

    @property
    def per_m2(self) -> float:
        """Bricks on each square metre, joint counted in."""
        return 1.0 / ((self.length_m + self.joint_m) * (self.width_m + self.joint_m))


@record
class Pad:
    """One pad to be laid: length and width of its top [m], depths of base and bedding [m], length of cut edge [m]."""

    length_m: float
    width_m: float
    base_m: float = BASE_FOOT_M
    bedding_m: float = BEDDING_M
    cut_edge_m: float = 0.0
    margin_m: float = BASE_MARGIN_M

    def __post_init__(self) -> None:
        sizes = (self.base_m, self.bedding_m, self.cut_edge_m, self.margin_m)
        if not (min(self.length_m, self.width_m) > 0.0 and min(sizes) >= 0.0):
            raise ValueError(f"a pad is expected to have sides above 0 and depths of 0 or more, got {self}")

    @property
    def area_m2(self) -> float:
        """Top of the pad [m²]."""
        return self.length_m * self.width_m

    @property
    def dug_area_m2(self) -> float:
        """Pad with the base's margin all round [m²]."""
        return (self.length_m + 2.0 * self.margin_m) * (self.width_m + 2.0 * self.margin_m)


@record
class PadTakeOff:
    """Materials of one pad: whole bricks, sand and base [m³], edging [m], and earth to dig [m³]."""

    bricks: int
    bedding_m3: float
    base_compacted_m3: float
    base_loose_m3: float
    joint_sand_m3: float
    edging_m: float
    dug_depth_m: float
    dug_bank_m3: float
    dug_loose_m3: float


def pad_takeoff(pad: Pad, brick: Brick) -> PadTakeOff:
    """Everything one pad takes, and the earth that comes out for it [count, m³, m].

    Formula: bricks = area × bricks/m² + 5 % + 1.5 a foot of cut edge; layers = area × depth, the base with its margin.
    Args: pad: sides and layers. brick: as laid.
    Returns: materials and digging of one pad.
    Valid: rectangular pads.
    Source: bricks, bedding and base after a brick industry guide as told in a trade article; loose and swell practice.
    """
    base_m3 = pad.dug_area_m2 * pad.base_m
    depth = pad.base_m + pad.bedding_m + brick.thickness_m
    return PadTakeOff(
        bricks=brick_count(pad.area_m2, brick, cut_edge_m=pad.cut_edge_m),
        bedding_m3=pad.area_m2 * pad.bedding_m,
        base_compacted_m3=base_m3,
        base_loose_m3=base_m3 * LOOSE_FROM_COMPACTED,
        joint_sand_m3=joint_sand_m3(pad.area_m2, brick),
        edging_m=2.0 * (pad.length_m + pad.width_m),
        dug_depth_m=depth,
        dug_bank_m3=pad.dug_area_m2 * depth,
        dug_loose_m3=pad.dug_area_m2 * depth * SWELL,
    )


def brick_count(area_m2: float, brick: Brick, *, cut_edge_m: float = 0.0, breakage: float = BREAKAGE) -> int:
    """Whole bricks for an area, with breakage and the waste of cutting [count].

    Formula: area × bricks/m² × (1 + breakage) + 1.5 for each foot (4.92 for each m) of cut edge, rounded up.
    Args: area_m2: to pave [m²]. brick: as laid. cut_edge_m: edge where bricks are cut [m]. breakage: share.
    Returns: bricks.
    Valid: area_m2 ≥ 0.
    Source: brick industry guide as told in a trade article (10 × 20 ft: 900 + 45 + 90 = 1035).
    """
    if not min(area_m2, cut_edge_m, breakage) >= 0.0:
        raise ValueError("area, cut edge and breakage are expected to be 0 or more")
    return ceil(area_m2 * brick.per_m2 * (1.0 + breakage) + BRICKS_PER_CUT_M * cut_edge_m - 1e-6)


def joint_sand_m3(area_m2: float, brick: Brick) -> float:
    """Sand that fills the joints of an area to the brick's full depth [m³].

    Formula: area × (1 − brick face / face with joint) × thickness.
    Args: area_m2: paved [m²]. brick: as laid, with its joint.
    Returns: m³.
    Valid: area_m2 ≥ 0.
    Source: geometry.
    """
    share = 1.0 - brick.length_m * brick.width_m * brick.per_m2
    return area_m2 * share * brick.thickness_m


def trench_m3(length_m: float, width_m: float, depth_m: float, *, swell: float = SWELL) -> tuple[float, float]:
    """Earth out of a trench, as it lay and as it lies in the heap [m³ bank, m³ loose].

    Formula: length × width × depth; times the swell.
    Args: length_m, width_m, depth_m: of the trench [m]. swell: loose over bank.
    Returns: (bank, loose).
    Valid: all ≥ 0, swell ≥ 1.
    Source: geometry; swell is common practice, no source.
    """
    if not (min(length_m, width_m, depth_m) >= 0.0 and swell >= 1.0):
        raise ValueError("trench sizes are expected to be 0 or more and swell at least 1")
    bank = length_m * width_m * depth_m
    return bank, bank * swell


def sleeve_bore_m(tube_outside_m: float) -> float:
    """Inside width of a sleeve under paving for a tube to be drawn through [m].

    Formula: twice the tube's outside diameter.
    Args: tube_outside_m: outside diameter [m].
    Returns: m.
    Valid: tube_outside_m > 0.
    Source: common practice, no source.
    """
    if not tube_outside_m > 0.0:
        raise ValueError(f"tube_outside_m is {tube_outside_m:g}; expected above 0")
    return 2.0 * tube_outside_m


def layer_m3(area_m2: float, depth_m: float) -> float:
    """Stone, gravel or mulch for an area at a depth [m³].

    Formula: area × depth.
    Args: area_m2: covered [m²]. depth_m: of the layer [m].
    Returns: m³.
    Valid: both ≥ 0.
    Source: geometry.
    """
    if not min(area_m2, depth_m) >= 0.0:
        raise ValueError("area and depth are expected to be 0 or more")
    return area_m2 * depth_m
