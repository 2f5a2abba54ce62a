"""Light, cautions, and what can stand in for a plant, over the whole plant table."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimful.domains.planting.colour import Lab, lab_of_hex
from brimful.domains.planting.light import Site, cautions, light_class, light_fit
from brimful.domains.planting.substitute import (
    WEIGHTS,
    Ranking,
    Wanted,
    rank_substitutes,
    swapped_count,
)

from .taxa import taxa

PALETTE: dict[str, Lab] = {
    name: lab_of_hex(code)
    for name, code in {
        "white": "#F7F7F2",
        "yellow": "#F5D50A",
        "orange": "#EE7A1C",
        "red": "#BE1421",
        "pink": "#EE8FB4",
        "rose": "#DE3F79",
        "purple": "#7A2A8E",
        "violet": "#6B3FA0",
        "blue": "#3F5FC0",
        "mid-green": "#4E7F37",
        "leaf red": "#A3242B",
    }.items()
}
SUNNY = Site(sun_h=8.0, coldest_c=5.0)
keys = st.sampled_from(sorted(taxa()))
sites = st.builds(
    Site,
    st.floats(0, 16),
    st.floats(-10, 10),
    st.frozensets(st.sampled_from(["toxic", "irritant", "invasive"])),
    st.booleans(),
)


def ranked(key: str, site: Site, count: int = 5, colours: tuple[str, ...] = ()) -> Ranking:
    """Substitutes from the whole table."""
    return rank_substitutes(Wanted(taxa()[key], count, colours), taxa().values(), site, PALETTE)


@given(keys, sites, st.integers(1, 40))
def test_every_taxon_is_ranked_or_stopped_for_a_reason(key: str, site: Site, count: int) -> None:
    """No plant is lost; scores fall from best to worst within 0 to 1 and are the weighed sum of their parts."""
    ranking = ranked(key, site, count)
    assert len(ranking.substitutes) + len(ranking.stopped) == len(taxa()) - 1
    assert all(s.reasons for s in ranking.stopped)
    scores = [round(s.score, 3) for s in ranking.substitutes]
    assert scores == sorted(scores, reverse=True)
    for s in ranking.substitutes:
        assert s.score == pytest.approx(sum(WEIGHTS[name] * part for name, part in s.parts.items()))
        assert all(0.0 <= part <= 1.0 for part in s.parts.values())


@given(keys, sites)
def test_no_hard_stop_is_passed(key: str, site: Site) -> None:
    """Whatever stands in has the layer, bears sun and cold of the place, and nothing that is forbidden there."""
    old = taxa()[key]
    for taxon in (s.taxon for s in ranked(key, site).substitutes):
        assert taxon.role == old.role
        assert taxon.direct_sun_hours_min <= site.sun_h
        assert site.sun_h <= taxon.direct_sun_hours_max or taxon.direct_sun_hours_max == 12.0
        assert taxon.min_temp_damage_c < site.coldest_c
        assert not ("toxic" in site.forbidden and taxon.toxic_to_pets == "yes")
        assert not (site.one_dripper and taxon.water_use != old.water_use)


def test_weights_make_one() -> None:
    """A plant equal in everything scores one."""
    assert sum(WEIGHTS.values()) == pytest.approx(1.0)
    twin = replace(taxa()["calibrachoa-trailing"], key="twin")
    wanted = Wanted(taxa()["calibrachoa-trailing"], 5, ("pink",))
    best = rank_substitutes(wanted, [twin], SUNNY, PALETTE).substitutes[0]
    assert (best.score, best.count, best.changes) == (pytest.approx(1.0), 5, ())


def test_more_heat_in_the_colour_lowers_only_the_colour_part() -> None:
    """A twin in another colour loses in colour alone; the further the colour, the more."""
    old = replace(taxa()["calibrachoa-trailing"], flower_colours=("red",))
    twins = [replace(old, key=c, flower_colours=(c,)) for c in ("red", "rose", "blue")]
    ranking = rank_substitutes(Wanted(old, 5), twins, SUNNY, PALETTE).substitutes
    assert [s.taxon.key for s in ranking] == ["red", "rose", "blue"]
    assert ranking[0].parts["colour"] == 1.0
    assert ranking[2].parts["colour"] == 0.0
    assert ranking[2].score == pytest.approx(1.0 - WEIGHTS["colour"])


def test_a_sun_plant_in_shade_finds_a_shade_plant() -> None:
    """For a pink mound in two hours of sun an impatiens is offered and sun plants are stopped as too dark."""
    ranking = ranked("geranium-zonal", Site(2.0, 5.0), colours=("pink",))
    assert any("impatiens" in s.taxon.key for s in ranking.substitutes[:8])
    zinnia = next(s for s in ranking.stopped if s.taxon.key.startswith("zinnia"))
    assert any("too dark" in reason for reason in zinnia.reasons)


def test_counts_keep_the_ground_covered() -> None:
    """A plant half as wide is needed four times; uprights stay odd; never fewer than one."""
    assert swapped_count(3, 0.4, 0.2) == 12
    assert swapped_count(1, 0.4, 0.2, odd=True) in (3, 5)
    assert swapped_count(1, 0.2, 0.9) == 1


def test_light_words_and_hours() -> None:
    """Full sun begins at 6 h, part sun at 4 (arboretum page, read); a fit tells how many hours miss."""
    assert [light_class(h) for h in (6, 5.9, 4, 3, 1.9)] == ["full-sun", "part-sun", "part-sun", "part-shade", "shade"]
    petunia = taxa()["petunia-trailing"]
    assert (light_fit(petunia, 4.0).verdict, light_fit(petunia, 4.0).off_h) == ("too dark", -2.0)
    assert light_fit(petunia, 8.0).verdict == "fits"
    assert light_fit(taxa()["begonia-rex"], 5.0).verdict == "too bright"


def test_no_day_is_too_long_for_a_plant_of_full_sun() -> None:
    """A day of 14 h of sun suits whatever bears the whole day, and not what wants shade at noon."""
    assert light_fit(taxa()["lantana-mounding"], 14.0).verdict == "fits"
    assert light_fit(taxa()["geranium-zonal"], 14.0).verdict == "too bright"
    assert ranked("lantana-mounding", Site(14.0, 5.0)).substitutes


def test_cautions_name_thirst_cold_poison_skin_and_spread() -> None:
    """Thirsty and dry plants together, cold nights, poison, irritant sap and spreaders are each told once."""
    group = [taxa()[k] for k in ("petunia-trailing", "verbena-canadensis", "begonia-rex", "lantana-mounding")]
    found = {(c.code, c.keys) for c in cautions(group, Site(8.0, 0.0))}
    assert ("mixed-water", tuple(t.key for t in group)) in found
    assert ("cold", ("begonia-rex",)) in found
    assert ("light", ("begonia-rex",)) in found
    assert ("toxic", ("lantana-mounding",)) in found
    assert ("irritant", ("lantana-mounding",)) in found
    assert ("invasive", ("lantana-mounding",)) in found
    calm = replace(taxa()["petunia-trailing"], toxic_to_pets="no", invasive_caution="none")
    assert cautions([calm], SUNNY) == ()


def test_mistakes_are_refused() -> None:
    """No plants to replace and hours beyond a day are refused."""
    with pytest.raises(ValueError, match="expected 1 or more"):
        ranked("calibrachoa-trailing", SUNNY, 0)
    with pytest.raises(ValueError, match="expected 0 to 24"):
        light_class(25.0)


def test_low_uprights_fill_the_middle() -> None:
    """Geraniums, upright but low, count with the mounding plants; tall grasses and climbers stay the upright."""
    roles = {key: taxa()[key].role for key in ("geranium-zonal", "purple-fountain-grass", "mandevilla", "gazania")}
    assert roles == {
        "geranium-zonal": "mounding",
        "purple-fountain-grass": "upright",
        "mandevilla": "upright",
        "gazania": "mounding",
    }
