"""Noise, dust and heat: the usual figures for how long and with what guard."""

from brimful.records import record

NOISE_LEVEL_DBA = 85.0
NOISE_EXCHANGE_DB = 3.0
DAY_MIN = 480.0
SILICA_LIMIT_UG_M3 = 50.0  # permissible exposure, 8 h mean (29 CFR 1926.1153, read in secondary sources)
SILICA_ACTION_UG_M3 = 25.0
COLLECTOR_CFM_PER_INCH = 25.0  # 29 CFR 1926.1153 table 1, grinder for mortar removal, read in a secondary source
HEAT_BANDS_F = ((91.0, "lower"), (103.0, "moderate"), (115.0, "high"))  # OSHA heat index guide, read
FULL_SUN_F = 15.0  # OSHA: full sun can add up to this to the heat index, read


@record
class DustControl:
    """A way to cut or drill masonry with its control, and the respirator (APF) it still asks for; 0 is none."""

    tool: str
    control: str
    outdoors_to_4_h: int | None
    outdoors_longer: int | None
    indoors_to_4_h: int | None
    indoors_longer: int | None
    source: str


DUST_CONTROLS = (  # None: the table gives no such use
    DustControl("standing masonry saw", "water on the blade", 0, 0, 0, 0, "29 CFR 1926.1153 table 1, state copy, read"),
    DustControl(
        "hand-held power saw", "water on the blade", 0, 10, 10, 10, "29 CFR 1926.1153 table 1, state copy, read"
    ),
    DustControl(
        "saw for fibre cement, blade to 8 in",
        "dust collector, 99 % filter",
        0,
        0,
        None,
        None,
        "29 CFR 1926.1153 table 1, state copy, read",
    ),
    DustControl(
        "hand-held drill", "shroud and dust collector, 99 % filter", 0, 0, 0, 0, "29 CFR 1926.1153 table 1, secondary"
    ),
    DustControl(
        "grinder taking out mortar",
        "shroud and dust collector, 25 cfm for each inch of wheel, 99 % filter",
        10,
        25,
        10,
        25,
        "29 CFR 1926.1153 table 1, secondary",
    ),
    DustControl(
        "grinder, other work",
        "shroud and dust collector, 25 cfm for each inch of wheel, 99 % filter",
        0,
        0,
        0,
        10,
        "29 CFR 1926.1153 table 1, secondary",
    ),
)


def noise_minutes(level_dba: float) -> float:
    """How long a day a bare ear may be in a noise [minutes].

    Formula: T = 480 / 2^((L − 85) / 3).
    Args: level_dba: at the ear [dBA].
    Returns: minutes.
    Valid: 80 to 130 dBA. Grinders and saws run at 95 to 105 (from memory).
    Source: NIOSH recommended limit, formula read in engineering tables.

    >>> noise_minutes(100)
    15.0
    """
    return float(DAY_MIN / 2.0 ** ((level_dba - NOISE_LEVEL_DBA) / NOISE_EXCHANGE_DB))


def collector_cfm(wheel_in: float) -> float:
    """Air a dust collector must draw for a grinder wheel [ft³/min].

    Formula: 25 cfm for each inch of wheel.
    Args: wheel_in: diameter [in].
    Returns: cfm.
    Valid: wheel_in > 0.
    Source: 29 CFR 1926.1153 table 1, read in a secondary source.

    >>> collector_cfm(5)
    125.0
    """
    if not wheel_in > 0.0:
        raise ValueError(f"wheel_in is {wheel_in:g}; expected above 0")
    return COLLECTOR_CFM_PER_INCH * wheel_in


def heat_risk(heat_index_f: float, *, full_sun: bool = False) -> str:
    """Risk band of working in the heat: lower, moderate, high or very high.

    Formula: heat index (plus up to 15 °F in full sun) below 91, to 103, to 115, above.
    Args: heat_index_f: from the forecast [°F]. full_sun: True where there is no shade.
    Returns: name of the band.
    Valid: any.
    Source: OSHA heat index guide, read.

    >>> heat_risk(95)
    'moderate'
    """
    felt = heat_index_f + (FULL_SUN_F if full_sun else 0.0)
    if felt < HEAT_BANDS_F[0][0]:
        return "lower"
    return next((name for most, name in HEAT_BANDS_F[1:] if felt <= most), "very high")
