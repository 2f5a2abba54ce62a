"""The commented starter plan that `brimful new` writes, and plans made from a person's answers."""

from collections.abc import Mapping, Sequence

from brimful.plan.write.spelling import spelled
from brimful.records import record

STARTER = """\
# A plan for Brimful. Change what stands here to your place; lines that begin with # are notes or choices to uncomment.
# Write quantities as you say them, in quotes: "31 in", "30 1/2 in", "2 ft 6 in", "0.8 m", "25 psi", "5 gal in 45 s".
# Then: brimful check THIS-FILE    brimful design THIS-FILE    brimful season THIS-FILE

title = "My containers"
units = "US"                          # or "metric": how answers are shown; you may write either

[site]
place = "where they stand"
latitude = 45.0                       # degrees north; south is negative
elevation = "300 ft"
planting_day = "15 May"
season_end = "10 October"             # about the first hard frost
surroundings = "row-on-paving"        # or massed, single-on-hot-paving, sheltered
# longitude = -93.0                   # west is negative; brimful weather needs it
# Weather, for brimful season: twelve monthly means, January first. Put those of your place here, from a climate table;
# or better daily weather in a file beside this one, with headers such as date, tmax (°F), tmin (°F):
# weather = "weather.csv"
normals = { tmax = "35 40 50 62 73 82 86 84 76 63 49 38 °F", tmin = "17 20 29 39 49 59 63 61 53 41 32 23 °F" }

[supply]
pressure = "50 psi"                   # gauge on the tap, everything shut
bucket_tests = ["5 gal in 45 s at 30 psi"]   # throttle until the gauge shows 30 psi, then time the bucket

[timer]
# hours = ["4:00 to 9:00"]            # when it may run; days = ["Monday", "Thursday"] where only some may

[tubing]
main = { tube = "pe-three-quarter-0.818", length = "30 ft" }
lateral = "pe-half-0.600"
regulator = "25 psi"
dripline = { type = "quarter-6in-0.65gph", length = "8 ft" }   # in each container
feeder = { tube = "feeder-quarter-0.170", length = "4 ft" }

[[containers]]
name = "front row"
count = 6
apart = "7 ft"
container = { shape = "round", top = "31 in", bottom = "26 in", height = "25 in", material = "concrete" }
plants = ["1 purple-fountain-grass", "4 geranium-zonal", "5 calibrachoa-trailing"]
"""


@record
class Stretch:
    """Containers next to each other that one valve waters, and how far its main runs from the tap [m]."""

    name: str
    count: int
    main: str
    zone: str = ""


def plan_text(said: Mapping[str, str], stretches: Sequence[Stretch], plants: Sequence[str], why: Sequence[str]) -> str:
    """A commented plan in the words of a person's answers.

    Args:
        said: the answers as written, by question.
        stretches: containers in a line, one valve each.
        plants: the planting of one container, such as "4 zonal geranium".
        why: lines that say how the plants were chosen.
    """
    parts = [_head(said), _site(said), _supply(said), *_zones(stretches), _recipe(plants, why)]
    parts += [_row(said, stretch, alone=len(stretches) == 1) for stretch in stretches]
    return "\n\n".join(part for part in parts if part) + "\n"


def _head(said: Mapping[str, str]) -> str:
    title, units = spelled(said.get("title", "My containers")), spelled(said.get("units", "US"))
    return f"""\
# A plan for Brimful, made from your answers. Change what stands here to your place; lines with # are notes.
# Write quantities as you say them, in quotes: "31 in", "2 ft 6 in", "0.8 m", "25 psi", "5 gal in 45 s at 30 psi".

title = {title}
units = {units}"""


def _site(said: Mapping[str, str]) -> str:
    lines = ["[site]"]
    lines += [f"{key} = {spelled(said[key])}" for key in ("place", "latitude", "longitude") if key in said]
    if said.get("sun") == "shade":
        lines.append('surroundings = "sheltered"           # in the shade less water is used')
    lines += [
        '# planting_day = "15 May"            # and season_end = "10 October", about the first hard frost',
        '# weather = "weather.csv"            # daily weather beside this file; with it the season can be worked out.',
        "# Or twelve monthly means, January first, from a climate table:",
        '# normals = { tmax = "35 40 50 62 73 82 86 84 76 63 49 38 °F",'
        ' tmin = "17 20 29 39 49 59 63 61 53 41 32 23 °F" }',
    ]
    return "\n".join(lines)


def _supply(said: Mapping[str, str]) -> str:
    lines = ["[supply]"]
    if "pressure" in said:
        lines.append(f"pressure = {spelled(said['pressure'])}  # gauge on the tap, everything shut")
    if "bucket_test" in said:
        lines.append(f"bucket_tests = [{spelled(said['bucket_test'])}]")
    else:
        lines.append(
            '# bucket_tests = ["5 gal in 45 s at 30 psi"]   # throttle to working pressure, then time a bucket'
        )
    return "\n".join(lines)


def _zones(stretches: Sequence[Stretch]) -> list[str]:
    """One table for the main of the only zone, or one for each zone; tube and emitters are left open to be chosen."""
    if len(stretches) == 1:
        return [
            f"[tubing]                              # tube and emitters are chosen for you; fix them here\n"
            f"main = {{ length = {spelled(stretches[0].main)} }}"
        ]
    note = "# One valve does not carry all of them, so they are divided. Tube and emitters are chosen for you.\n"
    tables = [
        f"[[zone]]\nname = {spelled(one.zone)}\nmain = {{ length = {spelled(one.main)} }}  # from the tap"
        for one in stretches
    ]
    return [note + tables[0], *tables[1:]]


def _recipe(plants: Sequence[str], why: Sequence[str]) -> str:
    listed = "".join(f"  {spelled(plant)},\n" for plant in plants)
    return "\n".join([*(f"# {line}" for line in why), "[recipe.all]", f"plants = [\n{listed}]"])


def _row(said: Mapping[str, str], stretch: Stretch, *, alone: bool) -> str:
    shape, top, height = said.get("shape", "round"), said["top"], said["height"]
    lines = ["[[containers]]", f"name = {spelled(stretch.name)}"]
    if not alone:
        lines.append(f"zone = {spelled(stretch.zone)}")
    lines.append(f"count = {stretch.count}")
    if "apart" in said:
        lines.append(f"apart = {spelled(said['apart'])}                      # middle to middle")
    sizes = {"shape": shape, "top": top, "height": height}
    lines += [f"container = {spelled(sizes)}   # outside", 'recipe = "all"']
    return "\n".join(lines)
