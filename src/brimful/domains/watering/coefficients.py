"""Plant coefficients from cover and height (FAO-56 chapters 9 and 10; Allen & Pereira 2009)."""

import math

from brimful.domains.watering.demand import STOMATAL_CEILING
from brimful.domains.watering.guards import require_non_negative, require_positive, require_share

DRY_SURFACE_KC = 0.15
"""Least coefficient over a dry surface, 0.15–0.20, FAO-56 eq. 97–98 (read). Wet bare mix: see demand.py."""


def height_kcb(height_m: float) -> float:
    """Basal coefficient of a closed stand by its height, calm humid air (FAO-56 eq. 101).

    Formula: Kcb,h = min(1.0 + 0.1 h, 1.20).

    Args:
        height_m: height of the plants [m]
    Returns: [1]
    Valid: h ≥ 0
    Source: FAO-56 eq. 101, p.189 (equation read; page from memory).
    """
    require_non_negative(height_m=height_m)
    return min(1.0 + 0.1 * height_m, 1.20)


def full_cover_kcb(height_m: float, wind_2m_m_s: float, relative_humidity_min_pct: float) -> float:
    """Basal coefficient of a closed stand in this air (FAO-56 eq. 100).

    Formula: Kcb,h + [0.04 (u2 − 2) − 0.004 (RHmin − 45)] (h/3)^0.3.

    Args:
        height_m: height of the plants [m]
        wind_2m_m_s: wind at 2 m [m/s]
        relative_humidity_min_pct: least relative humidity of the day [%]
    Returns: [1]
    Valid: wind 1–6 m/s and RHmin 20–80 %; values outside are taken at the bound
    Source: FAO-56 eq. 100 (read).

    >>> round(full_cover_kcb(0.5, 3.0, 20.0), 2)
    1.13
    """
    wind = min(max(wind_2m_m_s, 1.0), 6.0)
    humidity = min(max(relative_humidity_min_pct, 20.0), 80.0)
    air = 0.04 * (wind - 2.0) - 0.004 * (humidity - 45.0)
    return height_kcb(height_m) + air * math.pow(height_m / 3.0, 0.3)


def kcb_from_cover(
    cover: float, effective_cover: float, height_m: float, *, full_kcb: float, least_kc: float = DRY_SURFACE_KC
) -> float:
    """Basal coefficient of an open stand by its cover (FAO-56 eq. 98).

    Formula: Kc,min + (Kcb,full − Kc,min) · min(1, 2 f_c, f_c,eff^(1/(1+h))).

    Args:
        cover: seen from above [1]
        effective_cover: seen from the sun [1]
        height_m: height of the plants [m]
        full_kcb: coefficient of the closed stand [1]
        least_kc: coefficient of the dry surface [1]
    Returns: [1]
    Valid: covers 0–1
    Source: FAO-56 eq. 98 (read).

    >>> round(kcb_from_cover(0.3, 0.41, 2.0, full_kcb=1.15), 2)
    0.75
    """
    require_share(cover=cover, effective_cover=effective_cover)
    require_non_negative(height_m=height_m)
    density = min(1.0, 2.0 * cover, math.pow(effective_cover, 1.0 / (1.0 + height_m)))
    return least_kc + (full_kcb - least_kc) * density


def kcb_from_leaf_area(leaf_area_index: float, *, full_kcb: float, least_kc: float = DRY_SURFACE_KC) -> float:
    """Basal coefficient of an open stand by its leaf area (FAO-56 eq. 97).

    Formula: Kc,min + (Kcb,full − Kc,min) (1 − e^(−0.7 LAI)).

    Args:
        leaf_area_index: leaf area over ground [m²/m²]
        full_kcb: coefficient of the closed stand [1]
        least_kc: coefficient of the dry surface [1]
    Returns: [1]
    Valid: LAI ≥ 0
    Source: FAO-56 eq. 97 (read).
    """
    require_non_negative(leaf_area_index=leaf_area_index)
    return least_kc + (full_kcb - least_kc) * (1.0 - math.exp(-0.7 * leaf_area_index))


def thin_stand_reduction(cover: float, dense_cover: float) -> float:
    """How much to take off a dense stand's coefficient where plants stand thinner (FAO-56 eq. 94–96).

    Formula: A = 1 − √(f_c / f_c,dense).

    Args:
        cover: share of the ground covered, seen from above [1]
        dense_cover: the same of a dense stand [1]
    Returns: [1]
    Valid: 0 ≤ cover ≤ dense_cover
    Source: FAO-56 eq. 95 (read).
    """
    require_share(cover=cover, dense_cover=dense_cover)
    if cover > dense_cover:
        raise ValueError(f"cover is {cover}, above the dense stand's {dense_cover}: expected at most that")
    return 1.0 - math.sqrt(cover / dense_cover) if dense_cover > 0.0 else 0.0


def effective_cover(cover: float, sun_elevation_deg: float, height_to_width: float | None = None) -> float:
    """Cover as the noon sun sees it (FAO-56 ch. 9).

    Formula: round crowns f_c / sin η; rectangular rows f_c (1 + HWR / tan η); at most 1.

    Args:
        cover: share of the ground covered, seen from above [1]
        sun_elevation_deg: elevation of the sun at solar noon [°]
        height_to_width: of a row's cross-section; left out for round crowns [1]
    Returns: [1]
    Valid: sun above the horizon
    Source: FAO-56 p.188–189 (read).
    """
    require_share(cover=cover)
    if not 0.0 < sun_elevation_deg <= 90.0:
        raise ValueError(f"sun_elevation_deg is {sun_elevation_deg}: expected above 0, at most 90")
    elevation = math.radians(sun_elevation_deg)
    if height_to_width is None:
        return min(1.0, cover / math.sin(elevation))
    return min(1.0, cover * (1.0 + height_to_width / math.tan(elevation)))


def density_coefficient(effective_cover_share: float, height_m: float, canopy_multiplier: float = 2.0) -> float:
    """Share of the way from dry surface to closed stand (Allen & Pereira 2009).

    Formula: K_d = min(1, M_L f_c,eff, f_c,eff^(1/(1+h))).

    Args:
        effective_cover_share: cover as the noon sun sees it [1]
        height_m: height of the plants [m]
        canopy_multiplier: M_L, 1.5–2.0 [1]
    Returns: [1]
    Valid: cover 0–1
    Source: Allen & Pereira 2009, Irrig. Sci. 28:17–34 (form from memory and two open code bases).

    >>> round(density_coefficient(0.3, 0.5), 3)
    0.448
    """
    require_share(effective_cover_share=effective_cover_share)
    require_non_negative(height_m=height_m, canopy_multiplier=canopy_multiplier)
    return min(1.0, canopy_multiplier * effective_cover_share, math.pow(effective_cover_share, 1.0 / (1.0 + height_m)))


def mixed_stand_kc(parts: list[tuple[float, float, float]]) -> float:
    """Coefficient of two or more kinds grown together, weighed by area and height (FAO-56 eq. 104).

    Formula: Σ f h Kc / Σ f h.

    Args:
        parts: each (share of area f [1], height h [m], Kc [1])
    Returns: [1]
    Valid: Σ f h > 0
    Source: FAO-56 eq. 104 (read).
    """
    weight = math.fsum(share * height_m for share, height_m, _ in parts)
    require_positive(total_share_times_height=weight)
    return math.fsum(share * height_m * kc for share, height_m, kc in parts) / weight


def narrow_strip_kc(canopy_height_m: float, width_m: float, stomatal_factor: float = 1.0) -> float:
    """Coefficient of a tall narrow strip in dry surroundings (FAO-56 eq. 103).

    Formula: K = min(1.2 + F_r h_canopy / width, 2.5).

    Args:
        canopy_height_m: height of the leafy part [m]
        width_m: width of the strip [m]
        stomatal_factor: F_r, see stomatal_factor [1]
    Returns: [1]
    Valid: width > 0
    Source: FAO-56 p.203 (read; equation number from memory).

    >>> narrow_strip_kc(0.6, 1.2)
    1.7
    """
    require_positive(width_m=width_m)
    require_non_negative(canopy_height_m=canopy_height_m, stomatal_factor=stomatal_factor)
    return min(1.2 + stomatal_factor * canopy_height_m / width_m, STOMATAL_CEILING)


def stomatal_factor(slope_kpa_c: float, psychrometric_kpa_c: float, *, wind_2m_m_s: float, leaf_s_m: float) -> float:
    """Reduction for plants that close their stomata more than grass does (FAO-56 eq. 102).

    Formula: F_r = [Δ + γ (1 + 0.34 u2)] / [Δ + γ (1 + 0.34 u2 r_l / 100)].

    Args:
        slope_kpa_c: Δ, slope of the vapour pressure curve [kPa/°C]
        psychrometric_kpa_c: γ [kPa/°C]
        wind_2m_m_s: wind at 2 m [m/s]
        leaf_s_m: r_l, resistance of a leaf [s/m]
    Returns: [1]; 1 for a leaf resistance of 100 s/m
    Valid: all > 0
    Source: FAO-56 p.191 (read; equation number from memory).
    """
    require_positive(slope_kpa_c=slope_kpa_c, psychrometric_kpa_c=psychrometric_kpa_c, leaf_s_m=leaf_s_m)
    wind = 0.34 * wind_2m_m_s
    grass = slope_kpa_c + psychrometric_kpa_c * (1.0 + wind)
    return grass / (slope_kpa_c + psychrometric_kpa_c * (1.0 + wind * leaf_s_m / 100.0))
