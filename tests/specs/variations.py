"""Right variations of the complete jobs: the same work written otherwise, or other work as right.

Written from the trade's view: what a supervisor would sign without a second look. The jobs and all
figures are invented, no source; what the codes allow in them is said beside the variation.
"""

from __future__ import annotations

from tests.specs.other_work import OTHER_WORK
from tests.specs.variation import CARBON, HEADER, P91, Variation

#: The same job in other words, units and orders.
SAME_WORK: tuple[Variation, ...] = (
    Variation(
        "hardness by extent instead of a number of places",
        CARBON,
        (("weld at most 200 HBW count 3 places", 'weld at most 200 HBW extent "100 %" places'),),
    ),
    Variation(
        "bands said for each side",
        HEADER,
        (
            ("soak band 125 mm total", "soak band 62.5 mm each side"),
            ("heated band 930 mm total", "heated band 465 mm each side"),
            ("gradient band 1350 mm total", "gradient band 675 mm each side"),
        ),
    ),
    Variation(
        "bands in inches",
        HEADER,
        (
            ("soak band 125 mm total", "soak band 5 in total"),
            ("heated band 930 mm total", "heated band 36 5/8 in total"),
            ("gradient band 1350 mm total", "gradient band 54 in total"),
            ("width 1350 mm total", "width 54 in total"),
        ),
    ),
    Variation(
        "a cycle in degrees Fahrenheit",
        HEADER,
        (
            ("show SI and US", "show US and SI"),
            ("start of control 300 degC", "start of control 570 degF"),
            ("heat to 300 degC", "heat to 570 degF"),
            ("heat to 705 degC at most 120 degC/h", "heat to 1300 degF at most 215 degF/h"),
            (
                "hold 690 .. 720 degC for 2 h at most 6 h target 705 degC",
                "hold 1275 .. 1325 degF for 2 h at most 6 h target 1300 degF",
            ),
            ("cool to 300 degC at most 120 degC/h", "cool to 570 degF at most 215 degF/h"),
            ("end of control 300 degC", "end of control 570 degF"),
            ("alarm above 718 degC", "alarm above 1323 degF"),
            ("alarm below 692 degC", "alarm below 1277 degF"),
        ),
    ),
    Variation(
        "the hold as a tolerance",
        HEADER,
        (("hold 690 .. 720 degC for 2 h", "hold 705 +/- 15 degC for 120 min"),),
    ),
    Variation(
        "rates by the minute, as some controllers are set",
        CARBON,
        (
            ("heat to 625 degC at most 150 degC/h", "heat to 625 degC at most 2.5 degC/min"),
            ("cool to 300 degC at most 150 degC/h", "cool to 300 degC at most 2.5 degC/min"),
        ),
    ),
    Variation("the nominal size in millimetres", HEADER, (("pipe NPS 24", "pipe DN 600"),)),
    Variation(
        "the outside diameter as measured",
        HEADER,
        (("pipe NPS 24 schedule 100", "pipe outside diameter 610 mm"),),
    ),
    Variation("the wall in inches", HEADER, (("wall 39.6 mm measured", "wall 1.56 in measured"),)),
    Variation(
        "the hold time left to the rules",
        HEADER,
        (("for 2 h at most 6 h", "for by rule at most 6 h"),),
    ),
    Variation(
        "all widths left to the rules",
        HEADER,
        (
            ("soak band 125 mm total", "soak band by rule"),
            ("heated band 930 mm total", "heated band by rule"),
            ("gradient band 1350 mm total", "gradient band by rule"),
            ("zones 4", "zones by rule"),
            ("width 1350 mm total resistance", "resistance"),
            ("62 mm upstream channel 9", "65 mm upstream channel 9"),
            ("62 mm upstream channel 10", "65 mm upstream channel 10"),
            ("62 mm downstream channel 11", "65 mm downstream channel 11"),
            ("62 mm downstream channel 12", "65 mm downstream channel 12"),
            ("465 mm upstream", "445 mm upstream"),
            ("465 mm downstream", "445 mm downstream"),
            ("675 mm downstream", "665 mm downstream"),
        ),
    ),
    Variation(
        "seen against the flow, which mirrors right and left",
        HEADER,
        (
            ("viewed with flow", "viewed against flow"),
            ("zone right from", "zone near from"),
            ("zone left from", "zone far from"),
            ("T2 controls right", "T2 controls near"),
            ("T4 controls left", "T4 controls far"),
            ("right-1 in right", "near-1 in near"),
            ("right-2 in right", "near-2 in near"),
            ("left-1 in left", "far-1 in far"),
            ("left-2 in left", "far-2 in far"),
        ),
    ),
    Variation(
        "places by length along the outside",
        CARBON,
        (
            ("T3 monitors soak edge at 12:00, 46 mm", "T3 monitors soak edge arc 0 mm, 46 mm"),
            ("T4 monitors soak edge at 6:00, 46 mm", "T4 monitors soak edge arc 429 mm, 46 mm"),
        ),
    ),
    Variation(
        "channels wired in another order",
        CARBON,
        (
            ("on weld channel 1 control channel 1", "on weld channel 4 control channel 2"),
            ("on weld channel 2 control channel 2", "on weld channel 3 control channel 1"),
            (
                "T1S spare for T1 at 12:10 on weld channel 3",
                "T1S spare for T1 at 12:10 on weld channel 2",
            ),
            (
                "T2S spare for T2 at 6:10 on weld channel 4",
                "T2S spare for T2 at 6:10 on weld channel 1",
            ),
        ),
    ),
    Variation(
        "only the units of the plant on paper",
        CARBON,
        (("show SI and US", "show SI"),),
    ),
    Variation(
        "records kept by the year in days, readings by the minute",
        CARBON,
        (
            ("reading every 1 h", "reading every 60 min"),
            ("keep records 1826 d", "keep records 3653 d"),
        ),
    ),
    Variation(
        "the sentences of the header in other words",
        HEADER,
        (
            (
                "Tern Island: reheat outlet header, closing weld",
                "Tern Island: closing weld W12 of the reheat outlet header, 24 in, P22",
            ),
            (
                "Stress relief of the closing weld of the outlet header",
                "Local post-weld heat treatment of W12, girth butt in the outlet header",
            ),
            (
                "Attaches thermocouples and heaters, reads hourly",
                "Attaches thermocouples and heaters; takes readings every hour",
            ),
            (
                "Pins the spring hangers and releases them",
                "Answers for the hangers: pinned before, free afterwards",
            ),
            (
                "Heated band widened after the wall was measured",
                "Heated band 930 mm instead of 880 mm: wall measured at 39.6 mm",
            ),
            (
                "Each thermocouple warmed by hand reads on its own channel",
                "Every tag proved on its channel by a hand warmer",
            ),
            ("Spring hanger pinned", "Spring hanger locked with its pin, tag hung on"),
            ("Ends closed against draught", "Both pipe ends plugged, vents open"),
            ("Instruments within their calibration", "Stickers of R2 and C2 in date"),
            ("Standby set tried", "Diesel set 2 started once"),
            ("Surfaces up to 730 degC", "Metal under the blanket up to 740 degC"),
            (
                "Nobody beneath the header while hangers are pinned",
                "Keep clear below the header while it is hot",
            ),
            ('witness point "Reading of the hold"', 'witness point "Start and end of the hold"'),
            ("Spring hanger released", "Pin of the spring hanger out"),
            ("Heat treated: no welding, no arc strikes", "HEAT TREATED - DO NOT WELD"),
        ),
    ),
    Variation(
        "the sentences of the amine line in other words",
        CARBON,
        (
            (
                "Tern Island: lean amine suction line, tie-in weld",
                "Tern Island: tie-in weld W07 in the lean amine suction, 10 in carbon steel",
            ),
            (
                "Stress relief of one tie-in weld",
                "PWHT of one girth butt (tie-in) at 605 to 645 degC",
            ),
            ("Girth butts of the suction line", "Butt welds of the 10 in suction line"),
            (
                "Attaches thermocouples and heaters, reads hourly",
                "Attaches, watches and reads every 60 min",
            ),
            (
                "Releases the start and judges the chart",
                "Releases the start; judges the chart within 1 d",
            ),
            (
                "Wall measured on site; hold time follows",
                "Wall 29.1 mm measured on site, hold time by the measured wall",
            ),
            (
                "Bore drained, dried and vented; no amine left",
                "Line flushed, drained and vented, amine-free",
            ),
            (
                "Both ends closed against draught",
                "No draught through the bore, ends plugged and vented",
            ),
            ("Heaters and leads continuous", "Each heater rung out"),
            (
                "Heat shield of the suction gate valve in place",
                "Suction gate valve: shield tied on, seat below 200 degC",
            ),
            ("Shoe and trestle free to slide", "Line slides on shoe and trestle"),
            (
                "Amine is an irritant: drains stay closed while hot",
                "Drains stay closed; no amine on hot metal",
            ),
        ),
    ),
    Variation(
        "the sentences of the steam line in other words",
        P91,
        (
            (
                "Tern Island: superheated steam line, field weld",
                "Tern Island: field weld W33, superheated steam, 10 in P91",
            ),
            (
                "Preheat, hydrogen release and tempering of one weld in P91",
                "Preheat at 210 degC, bake-out and tempering of W33",
            ),
            (
                "Wait between welding and tempering limited to 48 h",
                "Tempering begins within 48 h of welding",
            ),
            (
                "Is on site from preheat until the cycle has ended",
                "Stays on site day and night until power is off",
            ),
            (
                "Weld below 93 degC all round, read on T1, T2 and T7",
                "T1, T2 and T7 below 90 degC, then the start is free",
            ),
            (
                "Constant hanger locked, clamp tight",
                "Constant hanger locked by its travel stops, clamp bolted up",
            ),
            ("Weld kept dry since the bake", "No rain on the weld since the bake-out"),
            (
                "Purge closed and argon cleared from the bore",
                "Argon off, oxygen in the bore measured",
            ),
            ("Above 770 degC the weld is scrap:", "No weld stands 770 degC. Alarm at 760 degC:"),
            ("Constant hanger free, clamp off", "Clamp off, constant hanger moves freely"),
        ),
    ),
)

VARIATIONS = (*SAME_WORK, *OTHER_WORK)
