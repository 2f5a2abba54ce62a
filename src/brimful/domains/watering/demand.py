"""Daily water demand of one planted container, and the rain that reaches its mix."""

from brimful.domains.watering.guards import require_non_negative, require_share

STOMATAL_CEILING = 2.5
"""Largest canopy coefficient a plant can sustain, FAO-56 p.203 (read)."""
SMALL_RAIN_SHARE = 0.2
"""Rain below this share of the day's ET0 evaporates before it counts, FAO-56 p.170 (read)."""
BARE_MIX_FACTOR = 0.7
"""Evaporation of wet bare mix as a share of ET0: middle of 0.6–0.8, from Beeson 2010, HortScience 45:1260 (160 mL a
day on 0.0508 m², read) against an ET0 of 4–5 mm (memory)."""
FULL_CANOPY_INTERCEPTION = 0.5
"""Share of rain a closed canopy throws off outside the mouth or holds on its leaves (common practice, no source)."""


def canopy_coefficient(plant_factor: float, microclimate_factor: float) -> float:
    """Water use of a square metre of leaf canopy as a multiple of ET0, never above 2.5.

    Formula: K = min(plant factor × microclimate factor, 2.5).

    Args:
        plant_factor: of the thirstiest plant present [1]
        microclimate_factor: massed on planted ground 1.0, row on paving 1.2–1.4, single container on hot paving
            1.5–2.0 (common practice, no source) [1]
    Returns: K [1]
    Valid: both factors ≥ 0
    Source: FAO-56 p.203 for the ceiling (read); bracketed by Hagishima et al. 2007, Hydrol. Process. 21:1217 (read).

    >>> canopy_coefficient(0.8, 1.3)
    1.04
    >>> canopy_coefficient(1.4, 2.0)
    2.5
    """
    require_non_negative(plant_factor=plant_factor, microclimate_factor=microclimate_factor)
    return min(plant_factor * microclimate_factor, STOMATAL_CEILING)


def canopy_demand_l_day(
    et0_mm: float, plant_factor: float, *, microclimate_factor: float, canopy_area_m2: float
) -> float:
    """Water the leaves draw in a day [L].

    Formula: ET0 × K × projected canopy area; 1 mm on 1 m² is 1 L.

    Args:
        et0_mm: ET0 at this container [mm/day]
        plant_factor: of the thirstiest plant present [1]
        microclimate_factor: see canopy_coefficient [1]
        canopy_area_m2: leaf canopy looking down, overhang included, never the mouth area [m²]
    Returns: [L/day]
    Valid: all ≥ 0
    Source: FAO-56 eq. 58 (read), area basis of the landscape-coefficient method.

    >>> round(canopy_demand_l_day(6.0, 0.8, microclimate_factor=1.0, canopy_area_m2=0.636), 1)
    3.1
    """
    require_non_negative(et0_mm=et0_mm, canopy_area_m2=canopy_area_m2)
    return et0_mm * canopy_coefficient(plant_factor, microclimate_factor) * canopy_area_m2


def wetted_surface_l_day(et0_mm: float, wetted_area_m2: float, evaporation_factor: float = BARE_MIX_FACTOR) -> float:
    """Water the wet bare mix loses in a day [L]; it rules for the first weeks after planting.

    Formula: ET0 × evaporation factor × wetted area.

    Args:
        et0_mm: ET0 at this container [mm/day]
        wetted_area_m2: mix the drip keeps wet [m²]
        evaporation_factor: share of ET0, 0.6–0.8 [1]
    Returns: [L/day]
    Valid: all ≥ 0
    Source: Beeson 2010, HortScience 45:1260 (read; the ET0 of that trial from memory).

    >>> round(wetted_surface_l_day(4.5, 0.0508), 3)
    0.16
    """
    require_non_negative(et0_mm=et0_mm, wetted_area_m2=wetted_area_m2, evaporation_factor=evaporation_factor)
    return et0_mm * evaporation_factor * wetted_area_m2


def demand_l_day(canopy_l_day: float, wetted_l_day: float) -> float:
    """Water a container needs in a day [L]: the larger of what leaves draw and what bare wet mix loses.

    Formula: max(canopy term, wetted-surface term): leaves that shade the mix take its place, they do not add to it.

    Args:
        canopy_l_day: what the leaves draw [L/day]
        wetted_l_day: what bare wet mix would lose [L/day]
    Returns: [L/day]
    Valid: both ≥ 0
    Source: Beeson 2010, HortScience 45:1260 (read): evaporation rules for about the first 60 days.
    """
    require_non_negative(canopy_l_day=canopy_l_day, wetted_l_day=wetted_l_day)
    return max(canopy_l_day, wetted_l_day)


def rain_to_mix_l(
    rain_mm: float,
    et0_mm: float,
    *,
    mouth_area_m2: float,
    canopy_cover: float,
    interception: float = FULL_CANOPY_INTERCEPTION,
) -> float:
    """Rain of one day that really reaches the mix [L]; small rains count as nothing.

    Formula: rain × mouth area × (1 − interception × cover of the mouth by leaves); 0 if rain < 0.2 ET0.

    Args:
        rain_mm: rain of the day [mm/day]
        et0_mm: ET0 of the day [mm/day]
        mouth_area_m2: open top of the container [m²]
        canopy_cover: share of the mouth under leaves [1]
        interception: share a closed canopy keeps out [1]
    Returns: [L/day]
    Valid: cover and interception 0–1
    Source: FAO-56 p.170 for the small-rain rule (read); interception: common practice, no source.

    >>> rain_to_mix_l(10.0, 4.0, mouth_area_m2=0.4, canopy_cover=0.0)
    4.0
    """
    require_non_negative(rain_mm=rain_mm, et0_mm=et0_mm, mouth_area_m2=mouth_area_m2)
    require_share(canopy_cover=canopy_cover, interception=interception)
    if rain_mm < SMALL_RAIN_SHARE * et0_mm:
        return 0.0
    return rain_mm * mouth_area_m2 * (1.0 - interception * canopy_cover)
