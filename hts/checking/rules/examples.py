"""The specifications that rule examples change: complete, small, invented, without a finding."""

from __future__ import annotations

#: A horizontal girth butt in P22, preheated and stress relieved by resistance heating.
BUTT = """\
spec 1

job "Tern Island (invented): header butt" {
  number       "HT-0001"
  revision     A on 2026-10-02 status for construction
  history {
    A on 2026-10-02 "First issue"
  }
  governed by  asme-b31.3 edition 2018, local-heating
  show         SI and US
  signed {
    prepared   "Heat-treatment engineer"
    checked    "Welding engineer"
    approved   "Owner's engineer"
  }
}

material pipe {
  grade        "A335 P22"
  heat number  "H4471"
  composition  C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %, Mo 0.98 %
}

joint W12 {
  kind       girth butt
  between    pipe and pipe
  pipe       NPS 12 schedule 120
  wall       25.4 mm measured
  cap width  30 mm
  axis       horizontal
  datum      top
  viewed     with flow
  made in    field
  expansion  free
  qualified  "PQR-31" hold 8 h condition below lower critical
  welding    "WPS-12" layers multiple process "GTAW and SMAW"
  support    "rod hanger" 1.2 m upstream fixed

  heating by resistance accepted by "Owner's engineer" {
    soak band      by rule
    heated band    by rule
    gradient band  by rule
    band ratio     5
    zone top       from 9:00 to 3:00 power 9 kW heaters 2
    zone bottom    from 3:00 to 9:00 power 9 kW heaters 2
    gap at         12:00
    insulation     "ceramic fibre blanket" thickness 50 mm layers 2
    ends           closed and vented
    bore           drained and dry
  }

  thermocouples type K class 1 gauge 20 {
    attached            capacitor discharge legs apart 6 mm energy 100 J each leg apart
    extension           KX class 1 length 20 m
    colours             IEC 60584-3
    junction cover      "refractory putty"
    lead at least       1 m
    reference junction  25 degC
    T1   controls top            at 12:00 on weld              channel 1   control channel 1
    T2   controls bottom         at 6:00  on weld              channel 2   control channel 2
    T1S  spare for T1            at 12:10 on weld              channel 7
    T2S  spare for T2            at 6:10  on weld              channel 8
    T3   monitors soak edge      at 12:00, 40 mm downstream    channel 3
    T4   monitors soak edge      at 6:00,  40 mm upstream      channel 4
    T5   monitors heated edge    at 12:00, 287 mm downstream   channel 5
    T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6
  }
}

preheat W12 {
  at least          150 degC
  interpass         at most 315 degC
  width             75 mm each side
  method            resistance
  measured by       contact probe at 76 mm on face toward the welder from 0 degC to 400 degC
  when interrupted  cool slowly and preheat again
  keep until        end of welding
}

cycle stress-relief for W12 {
  purpose             stress relief
  recorded by         R1
  controlled by       C1
  powered by          PS1
  start of control    300 degC
  heat  to 315 degC
  heat  to 715 degC   at most 200 degC/h
  hold  700 .. 730 degC for 2 h
  cool  to 315 degC   at most 200 degC/h
  cool  in still air
  end of control      300 degC
  rate margin         10 %
  hold counts         while all in range
  interrupted hold    adds up
  sensor break        upscale
  on power loss       resume at the present temperature
  on thermocouple loss  change to the spare
}

controller C1 {
  serial             "40-207"
  channels           6 type K range 0 .. 1200 degC
  error              +/- 1.0 degC
  control tolerance  +/- 5 K
  segments           16
  calibrated         2026-09-01 until 2027-03-01
}

recorder R1 {
  serial      "40-118"
  channels    12 type K range 0 .. 1200 degC
  interval    60 s
  error       +/- 1.5 degC
  resolution  1 K
  calibrated  2026-09-01 until 2027-03-01
}

power source PS1 {
  kind      transformer
  output    65 kVA
  circuits  6
}
"""

#: The lines of its cycle, from the purpose to what is done when something fails.
CYCLE = BUTT.partition("cycle stress-relief for W12 {\n")[2].partition("}\n")[0]

#: An owner's procedure by itself.
OWNER = """\
spec 1

procedure P-07 "Local heat treatment of piping welds" {
  revision         2 on 2026-03-01 status for construction
  applies to p-number  1, 4, 5A
  applies to wall      at most 75 mm
  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm
  cooling rate     at most 200 degC/h above 315 degC
  hold time        at least 2.5 min/mm * t
  hold time        at most 6 h
  heating spread   at most 140 K
  holding spread   at most 25 K
  excursion        at most 10 min in total
  margin below lower critical  at least 30 K
  delay before heat treatment  at most 48 h
  interpass        at most 350 degC
  forbids          lower-temperature hold
  requires monitor soak edge count 2
  requires spare for controlling thermocouples within 20 mm
  recorder interval at most 60 s
}
"""

#: The header butt under that procedure.
PROCEDURE = BUTT.replace("local-heating\n", "local-heating\n  follows      P-07\n") + OWNER.replace(
    "spec 1\n", "", 1
)

#: The same baked out before it is stress relieved.
BAKE = (
    PROCEDURE.replace(
        "requires monitor",
        "bake width at least 75 mm each side\n"
        "  bake temperature at least 300 degC\n  bake time at least 2 h\n"
        "  requires monitor",
    )
    + """
bake W12 {
  width             100 mm each side
  begins            from preheat
  lining            none
  test after        48 h
  recorded by       R1
  controlled by     C1
  powered by        PS1
  start of control  150 degC
  end of control    150 degC
  heat  to 325 degC at most 150 degC/h
  hold  300 .. 350 degC for 3 h
  cool  in insulation
  hold counts       while all in range
}
"""
)

#: Preheat alone, in inches and degrees Fahrenheit, on pipe too thin for more.
PREHEAT = """\
spec 1

job "Tern Island (invented): drain line tie-in" {
  number       "HT-0002"
  revision     A on 2026-10-02 status for construction
  history {
    A on 2026-10-02 "First issue"
  }
  governed by  asme-b31.3 edition 2018, local-heating
  show         US and SI
  signed {
    prepared   "Welding engineer"
    approved   "Owner's engineer"
  }
}

material pipe {
  grade        "A106-B"
  composition  C 0.25 %, Mn 0.80 %
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
  made in    field
  qualified  "PQR-07" condition without heat treatment
  welding    "WPS-03" layers multiple
}

preheat D3 {
  at least          200 degF
  interpass         at most 600 degF
  width             3 in each side
  method            gas
  measured by       temperature-indicating crayon at 3 in from 200 degF to 200 degF
  measured by       contact probe at 3 in from 32 degF to 800 degF
  when interrupted  cool slowly and preheat again
  keep until        end of welding
}
"""

#: A set-on branch of another wall, each side with a size of its own.
BRANCH = BUTT.replace(
    "joint W12 {\n  kind       girth butt", "joint W12 {\n  kind       branch"
).replace(
    "  pipe       NPS 12 schedule 120\n  wall       25.4 mm measured\n",
    (
        "  side run of pipe NPS 12 wall 25.4 mm measured\n"
        "  side branch of pipe NPS 10 wall 21 mm measured\n"
        "  branch weld sketch 1 cover fillet 10 mm crotch at 12:00\n"
    ),
)
for _old, _new in (
    ("viewed     with flow", "viewed     from branch"),
    (" mm downstream", " mm on branch"),
    (" mm upstream", " mm on run"),
    (" m upstream", " m on run"),
):
    BRANCH = BRANCH.replace(_old, _new)

#: A long seam, whose places are told along it.
SEAM = BUTT
for _old, _new in (
    ("kind       girth butt", 'kind       long seam\n  seam 2.4 m from "north head" on the left'),
    ("zone top       from 9:00 to 3:00", "zone top       along 0 mm .. 1200 mm"),
    ("zone bottom    from 3:00 to 9:00", "zone bottom    along 1200 mm .. 2400 mm"),
    ("    gap at         12:00\n", ""),
    ("heated band    by rule", "heated band    580 mm total"),
    ("gradient band  by rule", "gradient band  1000 mm total"),
    ("controls top            at 12:00 on weld", "controls top            along 600 mm on weld"),
    ("controls bottom         at 6:00  on weld", "controls bottom         along 1800 mm on weld"),
    ("for T1            at 12:10 on weld", "for T1            along 620 mm on weld"),
    ("for T2            at 6:10  on weld", "for T2            along 1820 mm on weld"),
    ("at 12:00, 40 mm downstream ", "along 600 mm, 40 mm side A "),
    ("at 6:00,  40 mm upstream ", "along 1800 mm, 40 mm side B "),
    ("at 12:00, 287 mm downstream", "along 600 mm, 287 mm side A"),
    ("at 6:00,  287 mm upstream", "along 1800 mm, 287 mm side B"),
    ("1.2 m upstream fixed", "1.2 m side A fixed"),
    ("  viewed     with flow\n", "  viewed     from side A\n"),
    ("local-heating\n", "local-heating\n  follows      P-21\n"),
):
    SEAM = SEAM.replace(_old, _new)
#: No book says how wide seams are heated.
SEAM += """
procedure P-21 "Heating of seams" {
  revision     1 on 2026-02-10 status for construction
  heated band  at least 500 mm total
}
"""

#: The joint of the header butt by itself, as a file others use: no book is in force.
JOINT = (
    "spec 1\n\n" + BUTT[BUTT.index("material pipe {") : BUTT.index("preheat W12 {")].rstrip() + "\n"
)

BASES = {
    "butt": BUTT,
    "owner": OWNER,
    "procedure": PROCEDURE,
    "bake": BAKE,
    "preheat": PREHEAT,
    "branch": BRANCH,
    "joint": JOINT,
    "seam": SEAM,
}


def changed(base: str, changes: tuple[tuple[str, str], ...]) -> str:
    """The base with each old text replaced by the new one.

    Raises ValueError where an old text does not stand in the base exactly once.
    """
    text = BASES[base]
    for old, new in changes:
        if text.count(old) != 1:
            raise ValueError(f"{old!r} stands {text.count(old)} times in the base {base!r}")
        text = text.replace(old, new)
    return text
