"""What is known of a plant. Field for field a row of the plant table, so that one fills the other."""

from brimful.records import record

ROLE_OF_HABIT = {
    "upright": "upright",
    "climbing": "upright",
    "mounding": "mounding",
    "rosette": "mounding",
    "trailing": "trailing",
}
"""Three layers: upright centre, mounding ring, trailing edge (garden columns, read)."""
LOW_UPRIGHT_M = 0.55
"""An upright plant lower than this serves in the middle ring, as geraniums do (common practice, no source)."""
ROLES = ("upright", "mounding", "trailing")
WATER_CLASSES = ("low", "moderate", "high")


@record(kw_only=True)
class Taxon:
    """A taxon or habit group: sizes [m] as grown in containers, sun [h/day], temperatures [°C], months 1–12 or None."""

    key: str
    common_name: str
    botanical_name: str
    life: str
    habit: str
    height_min_m: float
    height_max_m: float
    spread_min_m: float
    spread_max_m: float
    light: tuple[str, ...]
    direct_sun_hours_min: float
    direct_sun_hours_max: float
    water_use: str
    min_temp_damage_c: float
    heat_tolerance: str
    cold_season: bool
    bloom_start_month: int | None
    bloom_end_month: int | None
    flower_colours: tuple[str, ...]
    foliage_colour: tuple[str, ...]
    deadhead: str
    trim: str
    feed: str
    weeks_to_fill: float
    usual_spacing_m: float
    toxic_to_pets: str
    skin_irritant: str
    pollinator_value: str
    invasive_caution: str

    @property
    def role(self) -> str:
        """Its layer: upright, mounding or trailing; a low upright plant fills the middle as mounding ones do."""
        role = ROLE_OF_HABIT[self.habit]
        return "mounding" if role == "upright" and self.height_m() < LOW_UPRIGHT_M else role

    @property
    def genus(self) -> str:
        """First word of the botanical name."""
        return self.botanical_name.split()[0]

    @property
    def flowers(self) -> bool:
        """Whether it is grown for flowers."""
        return self.bloom_start_month is not None

    @property
    def shown_colours(self) -> tuple[str, ...]:
        """What it is seen for: flower colours, or leaf colours of a foliage plant."""
        blooms = tuple(c for c in self.flower_colours if c != "none") if self.flowers else ()
        return blooms or self.foliage_colour

    def height_m(self, vigour: float = 0.5) -> float:
        """Grown height [m]; vigour 0 takes the least, 1 the greatest of the table."""
        return self.height_min_m + vigour * (self.height_max_m - self.height_min_m)

    def spread_m(self, vigour: float = 0.5) -> float:
        """Grown width [m]; vigour 0 takes the least, 1 the greatest of the table."""
        return self.spread_min_m + vigour * (self.spread_max_m - self.spread_min_m)
