"""The plan file's schema: what may stand in it, in the words people use; everything optional that can be.

Read by pydantic at this edge only. Values are SI floats from here on (lengths in m, pressures in m of water).
"""

from typing import Annotated, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from brimful.plan.values import (
    Amount,
    Area,
    Bearing,
    Bucket,
    Conductivity,
    Coordinate,
    Counts,
    Day,
    Days,
    Distance,
    Duration,
    Elevation,
    Emitted,
    Form,
    Gust,
    Height,
    Hours,
    Injector,
    Kind,
    Label,
    Latitude,
    Leaching,
    Length,
    Litres,
    Longitude,
    Loops,
    Name,
    OnHand,
    People,
    Piece,
    PlantCount,
    Pressure,
    Rains,
    Rate,
    Rise,
    RowCount,
    RowName,
    Share,
    Size,
    Slope,
    Starts,
    Strength,
    Temperatures,
    Text,
    Turn,
    Units,
    WaterTemperature,
    Weekday,
    Weight,
    WorkDay,
    Year,
    counted,
    keyed,
    one_of,
)


class Table(BaseModel):
    """A table of the plan: frozen, and a key that nobody knows is an error."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)


class Weather(Table):
    """Where the daily weather stands: a file beside the plan, and what its columns are called."""

    file: Text
    columns: Annotated[
        tuple[tuple[str, str], ...], BeforeValidator(lambda v: tuple(v.items()) if isinstance(v, dict) else v)
    ] = ()
    wind_height: Size | None = None


class Normals(Table):
    """Twelve monthly means, January first, where there is no daily weather."""

    tmax: Temperatures
    tmin: Temperatures
    rain: Rains | None = None


class Shade(Table):
    """Something on the site plan that shades: where it stands, east and north of the origin, and how high."""

    kind: Kind
    height: Height
    start: tuple[Coordinate, Coordinate] | None = None
    end: tuple[Coordinate, Coordinate] | None = None
    corners: tuple[tuple[Coordinate, Coordinate], ...] = ()
    at: tuple[Coordinate, Coordinate] | None = None
    width: Height | None = None
    clear: Distance | None = None
    lets_through: Share | None = None

    @model_validator(mode="after")
    def whole(self) -> Self:
        """A tree stands at a point and has a width; anything else has a start and an end, or corners."""
        if self.kind == "tree" and (self.at is None or self.width is None):
            raise ValueError('a tree without at and width was given; expected both, for example at = ["4 m", "2 m"]')
        if self.kind != "tree" and len(self.corners) < 3 and (self.start is None or self.end is None):
            raise ValueError(f"a {self.kind} without start and end was given; expected both, or three corners or more")
        if self.clear is not None and self.clear >= self.height:
            raise ValueError("clear is not below height; expected the height of the lowest branches")
        if len(set(self.corners)) < 3 and self.kind != "tree" and (self.corners or self.start == self.end):
            raise ValueError("start and end are one point, or corners repeat; expected a line, or three corners apart")
        return self


class Season(Table):
    """What is wanted of the season."""

    reliability: Share | None = None
    leaching: Leaching | None = None


class WaterPrice(Table):
    """What water costs: a price for an amount."""

    price: float = Field(ge=0, le=1e6, allow_inf_nan=False)
    per: Amount


class Site(Table):
    """The place: where it is, its weather, its season, what stands around the containers."""

    place: Text | None = None
    latitude: Latitude | None = None
    longitude: Longitude | None = None
    elevation: Elevation | None = None
    weather: Annotated[Weather, BeforeValidator(keyed("file"))] | None = None
    recent_weather: Annotated[Weather, BeforeValidator(keyed("file"))] | None = None
    normals: Normals | None = None
    frost_normals: Text | None = None
    coastal: bool = False
    children: bool = False
    animals: bool = False
    wild_land: bool = False
    surroundings: Text | None = None
    planting_day: Day | None = None
    season_end: Day | None = None
    year: Year | None = None
    gust: Gust | None = None


class Supply(Table):
    """The water: static pressure at the tap, bucket tests, devices, the share of it that may be used."""

    pressure: Pressure | None = None
    bucket_tests: tuple[Bucket, ...] = ()
    devices: tuple[Text, ...] | None = None
    share: Share | None = None
    water_temperature: WaterTemperature | None = None


class Timer(Table):
    """What the timer can do."""

    step: Duration | None = None
    most_starts: Starts | None = None
    longest: Duration | None = None
    hours: tuple[Hours, ...] = ()
    days: tuple[Weekday, ...] = ()


class Tube(Table):
    """A length of tube of one kind; `rise` is how much higher its far end lies than its near end."""

    tube: Text | None = None
    length: Length | None = None
    rise: Rise | None = None


class Feeder(Table):
    """The thin tube from the lateral into each container."""

    tube: Text | None = None
    length: Length | None = None


class Dripline(Table):
    """Dripline in each container: which, and how much of it (a length, or so many loops)."""

    type: Text | None = None
    length: Piece | None = None
    loops: Loops | None = None
    ring: bool = False

    @model_validator(mode="after")
    def one_measure(self) -> Self:
        """A length and a number of loops cannot both be fixed."""
        if self.length is not None and self.loops is not None:
            raise ValueError(
                "both length and loops were given; expected one of them, since each follows from the other"
            )
        return self


class Emitters(Table):
    """Single emitters in each container: which, and how many."""

    type: Text | None = None
    count: Emitted | None = None


class Delivery(Table):
    """How water gets from the lateral into a container: feeder, then dripline or single emitters."""

    feeder: Annotated[Feeder, BeforeValidator(keyed("tube"))] | None = None
    dripline: Annotated[Dripline, BeforeValidator(keyed("type"))] | None = None
    emitters: Annotated[Emitters, BeforeValidator(keyed("type"))] | None = None

    @model_validator(mode="after")
    def one_kind(self) -> Self:
        """A container gets dripline or single emitters."""
        if self.dripline is not None and self.emitters is not None:
            raise ValueError("both dripline and emitters were given; expected one of them in the same table")
        return self


class Tubing(Delivery):
    """Tube for every zone, unless the zone says otherwise."""

    main: Annotated[Tube, BeforeValidator(keyed("tube"))] | None = None
    lateral: Text | None = None
    regulator: Pressure | None = None


class Zone(Tubing):
    """Containers watered together by one valve."""

    name: Name


class Container(Table):
    """A container: a type from the catalogue, or its own outside sizes; inside sizes follow from wall and base."""

    type: Text | None = None
    shape: Form | None = None
    top: Size | None = None
    bottom: Size | None = None
    top_width: Size | None = None
    bottom_width: Size | None = None
    height: Size | None = None
    diameters: tuple[tuple[Distance, Size], ...] = ()
    material: Text | None = None
    wall: Size | None = None
    base: Size | None = None
    weight: Weight | None = None
    reservoir: Size | None = None

    @model_validator(mode="after")
    def enough(self) -> Self:
        """Either a type, or a shape with its sizes."""
        if self.type is None and (
            self.shape is None or self.height is None or (self.top is None and not self.diameters)
        ):
            raise ValueError(
                'a type from the catalogue, or shape, top and height, were expected, for example shape = "round"'
            )
        return self


class Planted(Table):
    """So many plants of one taxon in each container."""

    plant: Text
    count: PlantCount
    size: Text | None = None
    colour: Text | None = None


Plants = tuple[Annotated[Planted, BeforeValidator(counted)], ...]


class Recipe(Table):
    """What is planted in each container that names this recipe, and the container it was written for."""

    plants: Plants = Field(min_length=1)
    written_for: Annotated[Container, BeforeValidator(keyed("type"))] | None = None


class Obstacle(Table):
    """A stretch of the line, from the first end mark, where no container may stand."""

    name: Text = "obstacle"
    starts: Distance
    ends: Distance


class SetOut(Table):
    """How a row is set out: end marks, obstacles, what is kept free behind, how the tube comes in underneath."""

    marks: Length | None = None
    gap: Distance = 0.0
    passage: Distance = 0.0
    overhang: Distance | None = None
    turn: Turn = 0.0
    obstacles: tuple[Obstacle, ...] = ()
    feet: Size | None = None
    channel: Size | None = None
    hole: Size | None = None


class Pads(Table):
    """A brick pad under each container: its layers, and which ground the line of tops is taken from."""

    beyond: Distance | None = None
    base: Size | None = None
    bedding: Size | None = None
    margin: Distance | None = None
    brick: tuple[Size, Size, Size] | None = None
    joint: Distance = 0.0
    shim: Size | None = None
    fall: Slope | None = None
    follow: bool = False
    reveal: Distance | None = None
    datum: Annotated[str, one_of("mean", "highest", "lowest")] = "highest"


class Trench(Table):
    """A trench for tube, and the sleeve under paving."""

    length: Length
    width: Size | None = None
    depth: Size | None = None
    sleeve: Distance = 0.0


class Gravel(Table):
    """Gravel or stone mulch over the ground."""

    area: Area
    depth: Size | None = None


class Crew(Table):
    """Who builds: people, hours a day, tools and machines, and which steps are done ("row 1:fill")."""

    people: People | None = None
    hours: WorkDay | None = None
    equipment: Counts | None = None
    done: tuple[Text, ...] = ()


class Feed(Table):
    """How the season is fed: soluble feed by label and strength, injector, coated feed and its rate."""

    soluble: Text | None = None
    label: Label | None = None
    ppm: Strength | None = None
    every: Days | None = None
    each: Litres | None = None
    injector: Injector | None = None
    counts: Annotated[str, one_of("final", "water")] | None = None
    coated: Text | None = None
    rate: Rate | None = None
    water_ec: Conductivity | None = None
    ec_rise: Conductivity | None = None


class Containers(Delivery):
    """A row of equal containers, or a single one: what they are, where they stand, what is in them."""

    name: RowName
    zone: Text | None = None
    count: RowCount = 1
    apart: Length | None = None
    leaves_main_at: Distance | None = None
    approach: Distance | None = None
    rise: Rise | None = None
    rise_last: Rise | None = None
    levels: tuple[Rise, ...] = ()
    raised: Distance | None = None
    start: tuple[Coordinate, Coordinate] | None = None
    heading: Bearing | None = None
    container: Annotated[Container, BeforeValidator(keyed("type"))]
    headspace: Distance | None = None
    mix: Text | None = None
    recipe: Text | None = None
    plants: Plants = ()
    density: Annotated[str, one_of("grow-in", "instant")] | None = None
    view: Annotated[str, one_of("all-round", "one-sided")] | None = None
    front: Text | None = None
    faces: Bearing | None = None
    surroundings: Text | None = None
    set_out: SetOut = SetOut()

    @model_validator(mode="after")
    def one_ground(self) -> Self:
        """Ground levels are given one for each container, or by the first and the last."""
        if self.levels and len(self.levels) != self.count:
            raise ValueError(f"{len(self.levels)} levels were given for {self.count} containers; expected one for each")
        if self.levels and (self.rise is not None or self.rise_last is not None):
            raise ValueError("both levels and rise were given; expected one of them")
        return self


class Plan(Table):
    """The whole plan."""

    title: Text = "Untitled plan"
    units: Units = "US"
    site: Site = Site()
    supply: Supply = Supply()
    timer: Timer = Timer()
    tubing: Tubing = Tubing()
    zone: tuple[Zone, ...] = ()
    containers: tuple[Containers, ...] = Field(min_length=1)
    recipe: dict[str, Recipe] = {}
    stock: dict[str, OnHand] = {}
    spares: dict[str, Share] = {}
    pads: Pads | None = None
    trench: Trench | None = None
    gravel: Gravel | None = None
    crew: Crew = Crew()
    feed: Feed = Feed()
    shade: tuple[Shade, ...] = ()
    season: Season = Season()
    water: WaterPrice | None = None
    currency: Text = "$"
