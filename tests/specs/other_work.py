"""Right variations of the complete jobs: other work, as right. All figures are invented."""

from __future__ import annotations

from tests.specs.variation import BRANCH, CARBON, HEADER, MANY, P91, PREHEAT, Variation

_ZONES = (
    "zone top from 9:00 to 3:00 power 10.8 kW heaters 4 circuit 1 "
    "zone bottom from 3:00 to 9:00 power 10.8 kW heaters 4 circuit 2"
)
_THREE_ZONES = """zone bottom from 4:00 to 8:00 power 8.1 kW heaters 3 circuit 1
    zone left from 8:00 to 12:00 power 8.1 kW heaters 3 circuit 2
    zone right from 12:00 to 4:00 power 8.1 kW heaters 3 circuit 3"""
_THREE_CONTROLS = """T1 controls bottom at 6:00 on weld channel 1 control channel 1
    T2 controls left at 10:00 on weld channel 2 control channel 2
    T8 controls right at 2:00 on weld channel 10 control channel 3"""
_THREE_SPARES = """T1S spare for T1 at 6:10 on weld channel 3
    T2S spare for T2 at 10:10 on weld channel 4
    T8S spare for T8 at 2:10 on weld channel 11"""
_BAKE = """bake W12 {
  begins from preheat
  width 120 mm each side
  lining none
  recorded by R2
  controlled by C2
  powered by PS2
  start of control 180 degC
  heat to 320 degC at most 120 degC/h
  hold 305 .. 345 degC for 12 h
  cool to 80 degC at most 120 degC/h
  end of control 80 degC
  test after 48 h
  hold counts while all in range
  interrupted hold adds up
  on power loss resume at the present temperature
  on thermocouple loss change to the spare
}

cycle stress-relief for W12 {"""
_WAIVER = """waive demand-not-met on W12/spare-for-controlling-thermocouples-within-25 {
  reason "The far side cannot be reached behind the steel"
  by "Welding engineer"
  until 2027-01-31
}

before heat W12 {"""
_TWO_WALLS = """side upstream of thick-carbon-pipe NPS 10 schedule 160,
      wall 29.1 mm measured part pipe
  side downstream of thick-carbon-pipe NPS 10 schedule 140,
      wall 25.6 mm measured part elbow"""

#: Other work, as right.
OTHER_WORK: tuple[Variation, ...] = (
    Variation(
        "a vertical line, its clock from north",
        CARBON,
        (
            ("axis horizontal outside", "axis vertical\n    outside"),
            (
                "axis horizontal datum top viewed with flow",
                "axis vertical\n  datum north\n  viewed from above",
            ),
            ("gap at 12:00", "gap at 9:00"),
            ("46 mm upstream", "46 mm above"),
            ("46 mm downstream", "46 mm below"),
            ("310 mm downstream", "310 mm below"),
            ("310 mm upstream", "310 mm above"),
            ("1.4 m downstream at most", "1.4 m below at most"),
            ("1.4 m downstream channel", "1.4 m below channel"),
            ("0.9 m upstream guided", "0.9 m above guided"),
            ("0.8 m downstream temporary", "0.8 m below temporary"),
        ),
    ),
    Variation(
        "an inclined line",
        HEADER,
        (
            ("axis horizontal datum", "axis inclined at 30 deg\n  datum"),
            ("axis horizontal temperature", "axis inclined\n    temperature"),
        ),
    ),
    Variation("made in the shop", CARBON, (("made in field", "made in shop"),)),
    Variation("an hour more", HEADER, (("for 2 h at most 6 h", "for 3 h at most 6 h"),)),
    Variation(
        "a slower cycle",
        CARBON,
        (
            ("heat to 625 degC at most 150", "heat to 625 degC at most 80"),
            ("cool to 300 degC at most 150", "cool to 300 degC at most 80"),
        ),
    ),
    Variation(
        "control from lower down",
        CARBON,
        (
            (
                "start of control 300 degC heat to 300 degC",
                "start of control 150 degC\n  heat to 150 degC",
            ),
            ("cool to 300 degC", "cool to 150 degC"),
            ("end of control 300 degC", "end of control 150 degC"),
        ),
    ),
    Variation(
        "a wider heated band with its monitors and heaters",
        CARBON,
        (
            ("heated band 630 mm", "heated band 700 mm"),
            ("310 mm downstream", "345 mm downstream"),
            ("310 mm upstream", "345 mm upstream"),
            (
                "count 4 width 315 mm length 214 mm circuit 1",
                "count 4 width 350 mm length 214 mm circuit 1",
            ),
            (
                "count 4 width 315 mm length 214 mm circuit 2",
                "count 4 width 350 mm length 214 mm circuit 2",
            ),
        ),
    ),
    Variation(
        "a higher preheat",
        HEADER,
        (
            ("at least 180 degC interpass", "at least 200 degC\n  interpass"),
            ("maintain at least 180", "maintain at least 200"),
        ),
    ),
    Variation("heat numbers by certificate only", BRANCH, (('heat number "H4472"', ""),)),
    Variation(
        "a lighter pipe of the same size",
        CARBON,
        (
            ("schedule 160", "schedule 140"),
            ("wall 29.1 mm", "wall 25.6 mm"),
            ("46 mm upstream", "43 mm upstream"),
            ("46 mm downstream", "43 mm downstream"),
        ),
    ),
    Variation("the wall as ordered", CARBON, (("29.1 mm measured", "28.58 mm nominal"),)),
    Variation(
        "three zones instead of two",
        CARBON,
        (
            (_ZONES, _THREE_ZONES),
            (
                "heater HT in top kind flexible pad power 2.7 kW count 4 width 315 mm"
                " length 214 mm circuit 1",
                "",
            ),
            (
                "heater HB in bottom kind flexible pad power 2.7 kW count 4 width 315 mm"
                " length 214 mm circuit 2",
                "",
            ),
            (
                "T1 controls top at 12:00 on weld channel 1 control channel 1 "
                "T2 controls bottom at 6:00 on weld channel 2 control channel 2",
                _THREE_CONTROLS,
            ),
            (
                "T1S spare for T1 at 12:10 on weld channel 3 "
                "T2S spare for T2 at 6:10 on weld channel 4",
                _THREE_SPARES,
            ),
        ),
    ),
    Variation(
        "a bake before the line cools",
        HEADER,
        (
            ("keep until post-weld heat treatment", "keep until bake"),
            ("when interrupted keep hot", "when interrupted bake before cooling"),
            ("cycle stress-relief for W12 {", _BAKE),
        ),
    ),
    Variation(
        "pipe to elbow, two walls",
        CARBON,
        (
            (
                "between thick-carbon-pipe and thick-carbon-pipe pipe NPS 10 schedule 160"
                " wall 29.1 mm measured",
                _TWO_WALLS,
            ),
        ),
    ),
    Variation(
        "in preparation, with a point still open",
        CARBON,
        (
            ("status for construction", "status in preparation"),
            (
                'reference "Piping class A3"',
                'open point 1 "Serial of the hired supply"\n  reference "Piping class A3"',
            ),
        ),
    ),
    Variation(
        "a rule set aside for one thing",
        HEADER,
        (
            ("T4S spare for T4 at 9:05 on weld channel 8", ""),
            ("before heat W12 {", _WAIVER),
        ),
    ),
    Variation(
        "the code alone, no owner's procedure",
        CARBON,
        (
            ("follows P-07 precedence P-07, asme-b31.3", "precedence asme-b31.3"),
            ('use "library/standing-orders.hts"', ""),
        ),
    ),
    Variation(
        "the older edition of the code",
        CARBON,
        (("asme-b31.3 edition 2018", "asme-b31.3 edition 2016"),),
    ),
    Variation(
        "power piping",
        P91,
        (
            ("asme-b31.3 edition 2018, local-heating", "asme-b31.1 edition 2018, local-heating"),
            ("precedence P-07, asme-b31.3", "precedence P-07, asme-b31.1"),
        ),
    ),
    Variation(
        "the welds of one description in another order",
        MANY,
        (
            ("cycle single for W23, W24, W25 {", "cycle single for W25, W23, W24 {"),
            ("preheat W21, W22, W23, W24, W25 {", "preheat W25, W24, W23, W22, W21 {"),
        ),
    ),
    Variation(
        "one weld fewer",
        MANY,
        (
            ("joint W23, W24, W25 like W21", "joint W23, W24 like W21"),
            ("cycle single for W23, W24, W25 {", "cycle single for W23, W24 {"),
            ("preheat W21, W22, W23, W24, W25 {", "preheat W21, W22, W23, W24 {"),
            ("before heat W21, W22, W23, W24, W25 {", "before heat W21, W22, W23, W24 {"),
            ("during heat W21, W22, W23, W24, W25 {", "during heat W21, W22, W23, W24 {"),
            ("after heat W21, W22, W23, W24, W25 {", "after heat W21, W22, W23, W24 {"),
            ("of five welds", "of four welds"),
            ("the order of W23 to W25", "the order of W23 and W24"),
            ("W25 added", "W24 added"),
        ),
    ),
    Variation(
        "preheat of the firewater main in metric units",
        PREHEAT,
        (
            ("show US and SI", "show SI and US"),
            ("wall 1.17 in measured", "wall 29.7 mm measured"),
            ("cap width 1 3/8 in", "cap width 35 mm"),
            (
                "at least 250 degF interpass at most 550 degF",
                "at least 120 degC\n  interpass at most 290 degC",
            ),
            ("width 3 in each side", "width 80 mm each side"),
            ("maintain at least 250 degF", "maintain at least 120 degC"),
        ),
    ),
    Variation(
        "an owner's refinery procedure, a smaller excursion and a longer soak",
        "refinery",
        (
            ("excursion at most 10 min", "excursion at most 5 min"),
            ("720 degC for 2 h at", "720 degC for 3 h at"),
        ),
    ),
    Variation(
        "a longer bake of a weld in 9 % chromium steel",
        "power",
        (("hold 305 .. 345 degC for 4 h", "hold 310 .. 345 degC for 6 h"),),
    ),
)
