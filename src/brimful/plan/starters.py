"""The commented starter plan that `brimful new` writes."""

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
# weather = "weather.csv"             # daily, beside this file; headers such as date, tmax (°F), tmin (°F)
# Or twelve monthly means, January first, from a climate table; brimful season needs one or the other:
# normals = { tmax = "35 40 50 62 73 82 86 84 76 63 49 38 °F", tmin = "17 20 29 39 49 59 63 61 53 41 32 23 °F" }

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
