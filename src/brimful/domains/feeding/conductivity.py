"""Salt: how feed raises the electrical conductivity (EC) of the water, and what a reading means."""

EC_RISE = {  # mS/cm for each 100 ppm N
    "15-5-15": 0.74,  # label chart in a grower supplier's newsletter 38: .37/.74/1.48 at 50/100/200 ppm
    "20-10-20": 0.65,  # from memory; use the bag
    "20-20-20": 0.42,  # from memory, 0.40 to 0.45; use the bag
    "calcium nitrate": 0.75,  # from memory, 0.7 to 0.8; use the bag
}
TDS_PPM_PER_MS_CM = 640.0  # University of Tennessee glossary; meters also use 500 or 700


def feed_ec_ms_cm(water_ec_ms_cm: float, nitrogen_ppm: float, rise_ms_cm_per_100_ppm: float) -> float:
    """Conductivity of the feed solution: the water's own plus what the feed adds [mS/cm].

    Formula: EC = EC of the water + k × ppm N / 100.
    Args: water_ec_ms_cm: plain water [mS/cm]. nitrogen_ppm: feed strength [mg N/L].
        rise_ms_cm_per_100_ppm: k, off the bag [mS/cm].
    Returns: EC [mS/cm at 25 °C].
    Valid: all ≥ 0; dilute solutions, up to about 400 ppm N.
    Source: linear rule as on feed label charts.

    >>> round(feed_ec_ms_cm(0.3, 200, 0.74), 2)
    1.78
    """
    if not min(water_ec_ms_cm, nitrogen_ppm, rise_ms_cm_per_100_ppm) >= 0.0:
        raise ValueError("water EC, nitrogen strength and EC rise are expected to be 0 or more")
    return water_ec_ms_cm + rise_ms_cm_per_100_ppm * nitrogen_ppm / 100.0


def nitrogen_ppm_from_ec(reading_ms_cm: float, water_ec_ms_cm: float, rise_ms_cm_per_100_ppm: float) -> float:
    """Feed strength behind a conductivity reading, to check an injector with a meter [mg N/L].

    Formula: ppm N = 100 × (reading − EC of the water) / k.
    Args: reading_ms_cm: solution at an emitter. water_ec_ms_cm: plain water.
        rise_ms_cm_per_100_ppm: k, off the bag [mS/cm].
    Returns: nitrogen [mg/L]; 0 where the reading is no higher than the water.
    Valid: k > 0; dilute solutions.
    Source: the linear rule of the label charts, turned round.
    """
    if not rise_ms_cm_per_100_ppm > 0.0:
        raise ValueError(f"rise_ms_cm_per_100_ppm is {rise_ms_cm_per_100_ppm:g}; expected above 0")
    return max(0.0, 100.0 * (reading_ms_cm - water_ec_ms_cm) / rise_ms_cm_per_100_ppm)
