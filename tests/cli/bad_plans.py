"""Plans with one thing wrong each, and the words that the finding must hold."""

GOOD = """\
title = "Bad plans"

[supply]
pressure = "3 bar"
bucket_tests = ["10 L in 75 s at 1.8 bar"]

[[containers]]
name = "rail"
count = 3
apart = "0.6 m"
container = { shape = "round", top = "40 cm", bottom = "30 cm", height = "38 cm", material = "terracotta" }
plants = ["1 angelonia", "2 zonal geranium", "2 calibrachoa"]
"""
SHAPE = '{ shape = "round", top = "40 cm", bottom = "30 cm", height = "38 cm", material = "terracotta" }'


def _with(old: str, new: str) -> str:
    assert GOOD.count(old) == 1, old
    return GOOD.replace(old, new)


def _before(lines: str) -> str:
    return GOOD.replace("[[containers]]", f"{lines}\n\n[[containers]]")


NORMALS = """[site]
latitude = 48
normals = { tmax = "4 6 11 16 21 24 26 26 21 15 9 5 °C", tmin = "-1 0 3 7 11 15 16 16 12 8 3 0 °C" }"""
"""A site with its normals; further keys of the site may follow."""


CANNOT_START: dict[str, tuple[str, str]] = {
    "not TOML": ("one tap, three pots", "p.toml:1:5: error: not TOML"),
    "unquoted quantity": (_with('"0.6 m"', "0.6 m"), "p.toml:10:13: error: not TOML"),
    "unknown key": (_with("apart", "aprat"), 'p.toml:10:1: error: unknown key "aprat". Did you mean "apart"'),
    "pressure for a length": (
        _with('"0.6 m"', '"31 psi"'),
        'p.toml:10:1: error: apart: "31 psi" is a pressure; a length',
    ),
    "length for a pressure": (
        _with('"3 bar"', '"3 in"'),
        'p.toml:4:1: error: pressure: "3 in" is a length; a pressure',
    ),
    "no unit": (_with('"0.6 m"', "0.6"), 'p.toml:10:1: error: apart: "0.6" needs a unit'),
    "zero size": (_with('"40 cm"', '"0 cm"'), "p.toml:11:32: error: top: '0 cm' was given; more than 0"),
    "negative size": (_with('"38 cm"', '"-38 cm"'), "p.toml:11:65: error: height: '-38 cm' was given; more than 0"),
    "zero pressure": (_with('"3 bar"', '"0 bar"'), "p.toml:4:1: error: pressure: '0 bar' was given; more than 0"),
    "not a number": (_with('"40 cm"', "nan"), "p.toml:11:32: error: top:"),
    "without end": (_with('"40 cm"', '"inf cm"'), "p.toml:11:32: error: top:"),
    "infinite": (_with('"40 cm"', "1e999"), "p.toml:11:32: error: top:"),
    "endless number": (_with("count = 3", "count = " + "3" * 5000), "p.toml:9:9: error: a number of thousands"),
    "no containers": (_with("count = 3", "count = 0"), "p.toml:9:1: error: count: 0 was given; a whole number from 1"),
    "half a container": (_with("count = 3", "count = 2.5"), "p.toml:9:1: error: count: 2.5 was given"),
    "no plants of a kind": (_with('"1 angelonia"', '"0 angelonia"'), "p.toml:12:11: error: count: 0 was given"),
    "600 plants of a kind": (_with('"1 angelonia"', '"600 angelonia"'), "a whole number from 1 to 500"),
    "500 plants in a pot": (_with('"1 angelonia"', '"500 angelonia"'), "p.toml:12:1: error: more than 200 plants"),
    "unknown plant": (
        _with("zonal geranium", "zonal gerannium"),
        'p.toml:12:26: error: no plant is called "zonal gera',
    ),
    "nearest plants": (_with("zonal geranium", "zonal gerannium"), "Did you mean geranium-zonal"),
    "common name of several": (
        _with("zonal geranium", "geranium"),
        "Did you mean geranium-zonal or geranium-ivy or geranium-scented?",
    ),
    "unknown tube": (
        _before('[tubing]\nlateral = "pe-haf-0.600"'),
        'p.toml:8:1: error: no tube is called "pe-haf-0.600"',
    ),
    "nearest tubes": (_before('[tubing]\nmain = "pe-haf-0.600"'), "Did you mean pe-half"),
    "unknown feeder of all": (_before('[tubing]\nfeeder = "feeder-0.17"'), "p.toml:8:1: error: no tube is called"),
    "unknown tube of a zone": (
        _before('[[zone]]\nname = "z"\nlateral = "pe-haf-0.600"'),
        'p.toml:9:1: error: no tube is called "pe-haf-0.600". Did you mean pe-half',
    ),
    "unknown dripline": (
        GOOD + 'dripline = "quarter-6-inch"\n',
        'p.toml:13:1: error: no dripline is called "quarter-6-inch"',
    ),
    "unknown emitter": (GOOD + 'emitters = "pc-1-gph"\n', "Did you mean pc-1gph"),
    "unknown container": (_with(SHAPE, '"round-concrete-31x52"'), "Did you mean round-concrete-31x25"),
    "unknown material": (_with('"terracotta"', '"teracotta"'), "Did you mean terracotta"),
    "unknown mix": (GOOD + 'mix = "peat-pearlite"\n', "Did you mean peat-perlite"),
    "unknown device": (
        _with('"3 bar"', '"3 bar"\ndevices = ["garden gnome"]'),
        "p.toml:5:12: error: no device is called",
    ),
    "unknown surroundings": (GOOD + 'surroundings = "paving"\n', 'no surroundings is called "paving"'),
    "unknown recipe": (GOOD + 'recipe = "x"\n', 'p.toml:13:1: error: no recipe is called "x". Recipes: none yet.'),
    "unknown zone": (GOOD + 'zone = "x"\n', "p.toml:13:1: error: no zone is called"),
    "contradictory supply": (_with('"3 bar"', '"1 bar"'), "p.toml:3:2: error: the supply contradicts itself"),
    "two zones, none named": (
        _before('[[zone]]\nname = "a"\n[[zone]]\nname = "b"'),
        'error: row "rail" names no zone, and there are 2',
    ),
    "zone with nothing in it": (
        _before('[[zone]]\nname = "a"\n[[zone]]\nname = "b"') + 'zone = "a"\n',
        'p.toml:9:3: error: zone "b" has no container',
    ),
    "zone named twice": (
        _before('[[zone]]\nname = "a"\n[[zone]]\nname = "a"'),
        'p.toml:10:1: error: two zones are called "a"',
    ),
    "row named as the main": (_with('"rail"', '"main"'), 'p.toml:8:1: error: name: "main" was given'),
    "headspace deeper than the container": (GOOD + 'headspace = "50 cm"\n', "p.toml:13:1: error: headspace"),
    "wall thicker than the container": (_with('"terracotta"', '"terracotta", wall = "25 cm"'), "wall"),
    "base thicker than the container": (_with('"terracotta"', '"terracotta", base = "38 cm"'), "base"),
    "reservoir to the rim": (_with('"terracotta"', '"terracotta", reservoir = "37 cm"'), "false bottom"),
    "type and sizes": (_with("{ shape", '{ type = "round-concrete-31x25", shape'), "expected a type alone"),
    "urn without a profile": (_with('"round"', '"urn"'), 'p.toml:11:1: error: container of "rail"'),
    "dripline without an emitter": (GOOD + 'dripline = { length = "1 cm" }\n', "has no emitter"),
    "beyond the main": (GOOD + 'leaves_main_at = "50 m"\n', "p.toml:13:1: error: row"),
    "no season": (_before('[site]\nplanting_day = "1 May"\nseason_end = "1 May"'), "p.toml:9:1: error: planting day"),
    "no weather file": (_before('[site]\nweather = "none.csv"'), "p.toml:8:1: error:"),
}
"""Plans that cannot be worked out: text, and words of one of the findings."""

WORKED_OUT: dict[str, tuple[str, str, int]] = {
    "too much for the supply": (
        _with("count = 3", 'count = 60\nemitters = { type = "pc-4gph", count = 4 }'),
        "error: zone 1 takes",
        1,
    ),
    "no water arrives": (GOOD + 'rise = "50 m"\n', "no water", 1),
    "no plants": (GOOD.rpartition("plants")[0], 'p.toml:7:3: warning: row "rail" has neither recipe nor plants', 0),
    "no bucket test": (
        GOOD.replace('bucket_tests = ["10 L in 75 s at 1.8 bar"]', ""),
        "p.toml:3:2: warning: no bucket test",
        0,
    ),
    "no gauge": (_with(" at 1.8 bar", ""), "p.toml:5:1: warning: the bucket test names no pressure", 0),
    "no weather": (GOOD, "warning: no weather was given", 0),
    "thirsty beside dry": (
        _with('"1 angelonia"', '"1 canna-dwarf", "1 lantana-mounding"'),
        "mixes thirsty plants",
        0,
    ),
    "thirsty and dry in one zone": (
        _with('"1 angelonia", "2 zonal geranium", "2 calibrachoa"', '"2 lantana-mounding"')
        + f'[[containers]]\nname = "wet"\ncontainer = {SHAPE}\nplants = ["2 canna-dwarf"]\n',
        "zone 1 runs as long for dry plants (rail) as for thirsty ones (wet)",
        0,
    ),
    "a recipe that does not fit": (
        _with('"1 angelonia"', '"40 angelonia"'),
        'p.toml:7:3: warning: row "rail": root balls of 44 plants overlap',
        0,
    ),
    "pots deeper than the container": (
        _with('height = "38 cm"', 'height = "12 cm"'),
        'warning: row "rail": the root ball of angelonia is',
        0,
    ),
    "poison where children come": (
        _before("[site]\nchildren = true"),
        "warning: zonal geranium is poisonous to pets",
        0,
    ),
    "sap where children come": (
        _before("[site]\nchildren = true"),
        "warning: zonal geranium can irritate the skin",
        0,
    ),
    "poison where animals come": (
        _before("[site]\nanimals = true"),
        "warning: calibrachoa may be poisonous: not known",
        0,
    ),
    "what spreads beside wild land": (
        _before("[site]\nwild_land = true").replace("1 angelonia", "1 lantana-mounding"),
        "warning: lantana can spread into wild land",
        0,
    ),
    "tender plants set out in April": (
        _before(NORMALS + '\nplanting_day = "1 April"'),
        "angelonia is harmed at",
        0,
    ),
}
"""Plans that are worked out, but not without a word: text, words of one of the findings, exit code."""

WEATHER = "date,tmax °F,tmin °F\n" + "".join(f"2015-{m:02}-{d:02},80,55\n" for m in range(1, 13) for d in range(1, 29))
WEATHERS: dict[str, tuple[str, str, int]] = {
    "gaps": (WEATHER, "gap", 0),
    "one long gap": (WEATHER[:2000] + WEATHER[-1500:], "gap", 0),
    "swapped": (WEATHER.replace("80,55", "55,80"), "exchanged", 0),
    "wrong units": (WEATHER.replace("°F", "°C"), "looks like °F", 1),
    "a unit that is none": (WEATHER.replace("°F", "parsec"), "parsec", 1),
    "no unit": (WEATHER.replace(" °F", ""), "unit", 1),
    "wrong dates": (WEATHER.replace("2015-", "month "), "date", 1),
    "no dates": ("\n".join(line.partition(",")[2] for line in WEATHER.split("\n")), "date", 1),
    "no temperatures": (WEATHER.replace(",80,55", ",,"), "not known on any day", 1),
    "no rows": ("date,tmax °F,tmin °F\n", "", 1),
    "not a table": ("\x00\x01\x02" * 99, "", 1),
    "empty": ("", "", 1),
    "words for numbers": (WEATHER.replace("80", "hot"), "not known on any day", 1),
    "years of the future": (WEATHER + "9999-12-31,80,55\n", "no such date", 0),
    "every day twice": (WEATHER + WEATHER.partition("\n")[2], "expected one row a day", 1),
    "only winter": (WEATHER[:601], "no day within", 1),
}
"""Weather files: text, words of one of the findings, exit code of `check`."""
