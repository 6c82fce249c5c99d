"""The parts of the language reference on a whole job, on demands, and on what silence means."""

FIRST = """\
## A whole job

```hts
spec 1

job "Tern Island (invented): drain line tie-in" {
  number       "HT-0002"
  revision     A on 2026-10-02 status for construction
  history {
    A on 2026-10-02 "First issue"
  }
  governed by  asme-b31.3 edition 2018, local-heating
  signed {
    prepared   "Welding engineer"
    approved   "Owner's engineer"
  }
}

material pipe {
  grade        "A106-B"
}

joint D3 {
  kind       girth butt
  between    pipe and pipe
  pipe       NPS 6 schedule 80
  wall       0.432 in measured
  cap width  3/4 in
  axis       vertical
  datum      north
  viewed     from above
  qualified  "PQR-07" condition without heat treatment
  welding    "WPS-03" layers multiple
}

preheat D3 {
  method            resistance
  at least          200 degF
  interpass         at most 600 degF
  width             3 in each side
  measured by       contact probe at 3 in from 32 degF to 800 degF
  when interrupted  cool slowly and preheat again
  keep until        end of welding
}
```

`hts check` finds nothing wrong with it. [TUTORIAL.md](TUTORIAL.md) builds one with a heat
treatment, step by step, and has a page for each task.

"""

DEMANDS = """\
## Demands of a procedure

Whatever a job can state, a procedure can demand, in the job's own words:

```hts
spec 1

procedure P-1 {
  requires  thermocouples attached capacitor discharge energy at most 100 J
  requires  heating gap at most min(30 mm, t) because "Cold strips were found"
  requires  recorder interval 60 s
  requires  after heat hardness weld at most 248 HV10 count at least 3
  requires  at least 2 thermocouple monitors heated edge
  requires  monitor soak edge at 12:00 at 6:00 count 2 each side when axis = horizontal
  requires  control at 12:00, 6:00
  requires  spare for controlling thermocouples within 25 mm
  requires  guard band one-sided 95 %
  requires  predicted lag at most 30 min when t > 40 mm
  requires  before heat check about fire watch by "Fire watch"
  requires  bake when thicker_wall > 25 mm, else cycle begins from preheat
  forbids   heating by gas
  forbids   waive missing-spare
  prefers   insulation layers at least 3
  forbids   thermocouples attached capacitor discharge
  allows    thermocouples attached energy at most 60 J when thicker_wall > 5 mm
  recorder interval at most 60 s
  calibration at most 365 d
}
```

- `requires` what every job it is for has to have; a job without it gets an error.
- `forbids` what no job may have; `allows` sets free what a `forbids` of the same procedure names.
- `prefers` what the owner would like; a job without it gets advice.
- A line that begins with a figure of a job and bounds it by `at least` or `at most` requires that.

The words of outer entries may be left out where only one entry has the name: `gap at most`, or
`heating gap at most`, or `joint heating gap at most`. Where several have it, a message lists
them.

After the entry comes what it has to say, each clause as a job writes it. A choice, a name or a
text may be one of several: `kind flexible pad or finger`. With commas or `and` all are asked
for, each of one entry or another: `thermocouple controls at 12:00 and 6:00`, `hand over "Chart",
"Hardness report"`; where a job says one value alone, that is refused. A text has to hold the
words; a choice is just the one. A figure is bounded by `at least` and `at most`, as a value or as
a formula on the facts of the joint. A bare figure is the very one, but where one way is plainly the
stricter:
`gap at most`, `interval`, `error`, `keep records` and the like may be stricter than demanded.
Figures are compared exactly, whatever their units; hardness scales are not.

Of several entries of a kind, such as heaters, each has to say it. Where they differ by what they
are about, the demand speaks of those it names: a hardness limit by its place, a check by its
topic, a point of inspection by its role, a test by its method, a thermocouple by its duty.
`at least 2` before the entry asks for so many, and so does `count 2` behind it: of places that are
all asked for, `count` is their number in all. `each side` asks for it on each side of the weld, of
what has a distance from the weld. `monitor` and `control` name a thermocouple by its duty, and a
place told by an arc counts as its clock position. `spare for controlling thermocouples` asks for
one of each of them; so do `monitoring thermocouples`, `all thermocouples` and `all zones`. What is
heated in a furnace has no edges of bands to monitor.

What follows from a job can be bounded, too, although no job states it: `within` is the distance of
a spare from the one it stands in for, `calibration` the time from the calibration of an instrument
to the day of the work. A stricter guard band does where a milder one is demanded; that of a bake is
asked for by `bake guard band`. `requires predicted …` asks for the outcome of a prediction, which
`hts check` makes and judges.

How a preheat, bake or cycle is run is asked of those a joint has; `requires bake` asks that there
is one, where a job both preheats and treats. What stands in `heating` and `thermocouples` is
asked of joints that are baked or heat treated. Instruments and materials are those that serve the
joint.

A demand is told with its line where it is not met (R111, R112, R113), and where a fact is missing
that it hangs on (R114). Demands of one procedure that no job meets together are told, too (R119).
`hts why SPEC` and the packet say of each where the job meets it.

### Between documents

- `replaces local-heating.zones` puts a limit in the place of a row of a book of practice.
- `amends P-07 revision 3` lets a procedure say `replaces P-07.hold-time`: its limit stands in for
  those of P-07 on that quantity, in the direction it states. A code in force is never replaced.
- `where others are silent` makes a limit count only where no other document limits the quantity.
- `hts why` tells what governs, and what was replaced.

### Results found afterwards

What is found afterwards stands in a file of its own, `NAME.results.hts` beside `NAME.hts`:

```hts
spec 1

results W12 {
  measured hardness  weld 221 HBW, 230 HBW, 228 HBW at "12:00, 4:00, 8:00" by "Inspector"
  measured straightness  1.8 mm per 3 m on 2026-12-02
  examined  "MT" accepted after 26 h report "MT-77"
  done  "Spring hanger released" by "Piping engineer" on 2026-12-02
}
```

`hts record check` reads it, or the one named with `--results`, and judges each result against the
specification on the report of the record. A result that is missing is *not shown*, never met. That
the joints are those of `NAME.hts`, `hts check` looks at.

"""

SILENCE = """\
## Words for sides and places

| word | what it means |
|---|---|
| `each side` | of a preheat: from each edge of the weld outward; of a bake and of a band: \
from the weld centreline, so that `80 mm each side` is `160 mm total` |
| `total` | from one end to the other, the weld included |
| `upstream`, `downstream` | along the pipe from the weld centreline, by the flow |
| `side A`, `side B` | the two sides where the flow says nothing |
| `on run`, `on branch` | of a branch weld |
| `above`, `below` | of a weld in a vertical pipe |
| `12:00` … `11:59` | round the pipe, clockwise in the direction `viewed`, from the `datum` |
| `soak edge`, `heated edge`, `gradient edge` | the two ends of the band of that name |
| `heavy section` | the thicker part of the joint, which lags |
| `on weld` | on the weld centreline |

## What silence means

| left out | what counts |
|---|---|
| `target` of a hold | the middle of its range |
| `datum` | 12:00 is the top |
| `surface` of a thermocouple | outside |
| rate of `heat` or `cool` | what books and procedures allow, else free and told |
| `hold counts`, `counts from` | while all required thermocouples are in range |
| `interrupted hold` | it starts again |
| `excursion`, `rate excursion` | none is tolerated |
| `heating spread`, `holding spread` | what books and procedures allow, \
over each distance they name |
| `rate over` | 15 min, from practice, and told |
| `guard band` | none: readings are compared as they are |
| `on power loss` and the like | the packet prints common practice, marked as such |
| `show` | SI units on paper |
| `precedence` | the strictest limit counts |
| `lining`, `begins` of a bake | told: nobody knows what the hydrogen meets |
| `mean of hold` | the mean has no range of its own: each thermocouple keeps that of the hold |
| `on cooling fault` | cooling too fast is told, and nothing is repeated |
| `governing thickness` | what the books define it to be, from walls and throat |
| `p-number`, `en group`, `lower critical` | what the table of grades has, with its source |
| `heat number`, `composition` | what hangs on them is told as undecided, never guessed |
| `viewed` | clock positions are told to be ambiguous |
| `heavy section` | the pipe goes on with its wall on both sides of the weld |
| `spare for` | a lost thermocouple leaves the hold *not shown* |
| `channel` of a thermocouple | it is not recorded, and nothing it would show counts |
| `calibrated` | told; on the day of the record calibration is *not shown* |
| `edition` of a book | an error where the book has several |
| `each`, `in total` of an allowance | all times added, the stricter reading |
| `keep until` of a preheat | to the end of welding |
| `hold point`, `witness point` | nobody is called, and no rule asks who would be |

## Glossary

| term | what the trade means |
|---|---|
| preheat | temperature of the joint before the first arc |
| interpass temperature | temperature before the next pass |
| bake-out, hydrogen release | heat that drives hydrogen out of a weld before it cools |
| post-weld heat treatment | heating of a finished weld to relieve stress or to temper it |
| hold, soak | the time all required thermocouples are within the range |
| soak band | width held within the range |
| heated band | width covered by heaters |
| gradient band | width insulated |
| control zone | heaters that follow one controlling thermocouple |
| spread | difference between the hottest and the coldest thermocouple |
| excursion | time outside the range |
| lower critical temperature, Ac1 | where steel begins to transform on heating |
| governing thickness | thickness that hold time and rates are taken from |
| P-number | group of base metals in ASME IX |
| hold point | work stops until a role has released it |
| witness point | a role is called, and work goes on |
| margin | distance kept from a limit |
| guard band | part of a range kept free for measuring uncertainty |
| heavy section | flange, valve body or thicker wall beside the weld, which draws heat and lags |
| test plate | plate welded and heated as the joint is, for mechanical tests |
| holding oven, quiver | where dried electrodes are kept hot until they are used |
| capacitor discharge | welding of thermocouple wires by a stored charge |
| extension cable | cable of like alloy between thermocouple and instrument |
| drained and dry | no liquid in the bore, which would flash to steam |

"""
