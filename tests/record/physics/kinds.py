"""The kinds of record: truly met, truly not met, and each fault of the measuring chain."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from tests.record.physics import driving, edits, wiring
from tests.record.physics.cases import EITHER, OPEN, UNSHOWN, Kind, heating, hold
from tests.record.physics.circuit import COPPER, Loop
from tests.record.physics.faults import Trouble
from tests.record.physics.oven import HEAT, HOLD
from tests.record.physics.plants import STRICT

#: Not the loss of a heater, which is another fault.
NEAR_HEATER = (r"heater(?!.?(loss|lost))",)
HEATER_LOSS = (r"heater.?(loss|lost)",)

FAULTS = (
    Kind(
        "extension pair reversed, on a monitor",
        (r"revers",),
        troubles=wiring.one(lambda run, rng: Trouble(loop=wiring.crossed_cable(run.plant.type))),
    ),
    Kind(
        "extension pair reversed, on a control",
        (r"revers",),
        program=lambda plant, rng: driving.misread_control(wiring.crossed_cable(plant.type))(
            plant, rng
        ),
        troubles=wiring.first_control(
            lambda run, rng: Trouble(loop=wiring.crossed_cable(run.plant.type))
        ),
    ),
    Kind(
        "extension pair reversed and mended in the hold",
        (r"revers",),
        troubles=wiring.one(
            lambda run, rng: Trouble(
                loop=wiring.crossed_cable(run.plant.type), end=hold(run, rng.uniform(0.3, 0.7))
            )
        ),
    ),
    Kind(
        "whole loop reversed",
        (r"revers",),
        troubles=wiring.one(
            lambda run, rng: Trouble(
                loop=Loop(run.plant.type, (f"{run.plant.type}+", f"{run.plant.type}-"), True)
            )
        ),
    ),
    Kind(
        "extension of copper",
        (r"extension", r"cable"),
        troubles=wiring.one(lambda run, rng: Trouble(loop=Loop(run.plant.type, (COPPER, COPPER)))),
    ),
    Kind(
        "recorder set to another type, one channel",
        (r"type",),
        troubles=wiring.one(lambda run, rng: Trouble(set_to=wiring.other_type(run.plant.type))),
    ),
    Kind(
        "recorder set to another type, all channels",
        (r"type",),
        troubles=wiring.everyone(
            lambda run, rng: Trouble(set_to=wiring.other_type(run.plant.type))
        ),
    ),
    Kind(
        "recorder set to type J, one channel",
        (r"type",),
        troubles=wiring.one(lambda run, rng: Trouble(set_to="J")),
    ),
    Kind(
        "recorder set to type S, one channel",
        (r"type", r"range", r"impossible", r"scale"),
        troubles=wiring.one(lambda run, rng: Trouble(set_to="S")),
    ),
    Kind(
        "cold junction steps, one channel",
        (r"cold.junction", r"reference.junction", r"step", r"offset", r"jump"),
        troubles=wiring.one(
            lambda run, rng: Trouble(
                start=hold(run, rng.uniform(0.2, 0.6)),
                cold=rng.uniform(14, 25) * rng.choice([-1, 1]),
            )
        ),
    ),
    Kind(
        "cold junction steps, all channels",
        (r"cold.junction", r"reference.junction"),
        troubles=wiring.everyone(
            lambda run, rng: Trouble(
                start=hold(run, rng.uniform(0.2, 0.6)), cold=rng.uniform(8, 15)
            )
        ),
    ),
    Kind(
        "one channel off by 12 K from the cold start on",
        (r"cold.junction", r"reference.junction", r"offset", r"cold", r"differ", r"disagree"),
        troubles=wiring.one(lambda run, rng: Trouble(cold=float(rng.choice([-12.0, 12.0])))),
    ),
    Kind(
        "drift",
        (r"drift",),
        troubles=wiring.one(
            lambda run, rng: Trouble(
                start=heating(run, rng.uniform(0.3, 0.7)), drifts=rng.uniform(0.02, 0.04)
            )
        ),
    ),
    Kind(
        "mains pick-up",
        (r"noise", r"pick.?up", r"mains", r"noisy"),
        troubles=wiring.one(
            lambda run, rng: Trouble(start=heating(run, 0.1), mains=rng.uniform(9, 18))
        ),
    ),
    Kind(
        "junction near a heater",
        NEAR_HEATER,
        troubles=wiring.one(lambda run, rng: Trouble(touch=rng.uniform(0.4, 0.8))),
    ),
    Kind(
        "junction detached",
        (r"detach", r"loose", r"lift", r"come off", r"fallen"),
        troubles=wiring.one(
            lambda run, rng: Trouble(
                start=hold(run, rng.uniform(0.1, 0.6)), lift=rng.uniform(0.15, 0.4)
            )
        ),
    ),
    Kind(
        "wires shorted away from the weld",
        (r"short",),
        troubles=wiring.one(
            lambda run, rng: Trouble(
                start=hold(run, rng.uniform(0.1, 0.6)), short_at=rng.uniform(0.15, 0.5)
            )
        ),
    ),
    Kind(
        "insulation leaks when hot",
        (r"shunt", r"insulation", r"leak", r"short", r"low"),
        troubles=wiring.one(
            lambda run, rng: Trouble(leak=lambda wall: 3000 * np.exp(-(wall - 20) / 85.0))
        ),
    ),
    Kind(
        "open circuit, told as text",
        (r"open", r"broken", r"break", r"no reading", r"lost", r"error.text"),
        troubles=wiring.one(wiring.opened(9999.0)),
    ),
    Kind(
        "open circuit, drives to the top",
        (r"open", r"broken", r"break", r"over.?range", r"lost"),
        troubles=wiring.one(wiring.opened(1370.0)),
    ),
    Kind(
        "open circuit, drives to the bottom",
        (r"open", r"broken", r"break", r"lost"),
        troubles=wiring.one(wiring.opened(-199.0)),
    ),
    Kind(
        "contact comes and goes",
        (r"intermittent", r"loose", r"open", r"contact", r"comes and goes", r"error.text"),
        troubles=wiring.one(wiring.intermittent),
    ),
    Kind(
        "spare reads 30 K low",
        (r"spare", r"disagree", r"differ", r"pair", r"partner"),
        UNSHOWN,
        troubles=wiring.spare(wiring.offset_of(27, 36)),
    ),
    Kind(
        "spare reads 30 K high",
        (r"spare", r"disagree", r"differ", r"pair", r"partner"),
        UNSHOWN,
        troubles=wiring.spare(wiring.offset_of(-36, -27)),
    ),
    Kind(
        "control reads 30 K low, weld hotter than shown",
        (r"spare", r"disagree", r"differ", r"pair", r"partner"),
        UNSHOWN,
        program=driving.offset_control(-30),
        troubles=wiring.first_control(wiring.offset_of(29, 31)),
    ),
    Kind(
        "control reads 30 K high, weld colder than shown",
        (r"spare", r"disagree", r"differ", r"pair", r"partner"),
        UNSHOWN,
        program=driving.offset_control(30),
        troubles=wiring.first_control(wiring.offset_of(-31, -29)),
    ),
    Kind(
        "recorder hangs in the hold",
        (r"frozen", r"hung", r"stuck", r"same", r"still"),
        edit=edits.hang(0.8),
    ),
    Kind(
        "recorder hangs half an hour",
        (r"frozen", r"hung", r"stuck", r"same", r"still"),
        edit=edits.hang(0.4),
    ),
    Kind("one channel frozen", (r"frozen", r"stuck", r"same"), edit=edits.freeze),
    Kind(
        "rows repeated to fill a gap",
        (r"repeat", r"cop", r"same", r"twice"),
        UNSHOWN,
        edit=edits.repeat_rows,
    ),
    Kind(
        "column copied",
        (r"cop", r"same", r"identical", r"duplicate"),
        UNSHOWN,
        edit=edits.copy_column(0.0),
    ),
    Kind(
        "column copied with an offset",
        (r"cop", r"same", r"identical", r"duplicate"),
        UNSHOWN,
        edit=edits.copy_column(3.0),
    ),
    Kind(
        "two controls exchanged",
        (
            r"exchang",
            r"swap",
        ),
        edit=edits.exchange_controls,
    ),
    Kind("control and edge monitor exchanged", (r"exchang", r"swap"), edit=edits.exchange_edge),
    Kind("all channels in another unit than said", (r"unit",), UNSHOWN, edit=edits.wrong_unit_all),
    Kind("one channel in another unit than said", (r"unit",), edit=edits.wrong_unit_one),
    Kind(
        "one channel ten times too small",
        (r"scale", r"ten", r"decimal", r"factor"),
        edit=edits.tenth,
    ),
    Kind("clock jumps ahead", (r"clock",), EITHER, edit=edits.clock_jump(1)),
    Kind("clock set back", (r"clock",), EITHER, edit=edits.clock_jump(-1)),
    Kind(
        "rows missing in the hold",
        (r"gap", r"missing", r"clock", r"no rows"),
        edit=edits.missing(0.25),
    ),
    Kind("spikes", (r"spike",), EITHER, edit=edits.spikes),
    Kind("two runs in one file", (r"run",), edit=edits.two_runs),
    Kind(
        "dated before the sheet's revision", (r"revis", r"date"), UNSHOWN, edit=edits.dated_before
    ),
    Kind("of another revision", (r"revis",), UNSHOWN, edit=edits.other_revision),
    Kind(
        "control near a heater, weld colder than shown",
        NEAR_HEATER,
        program=driving.touching_control,
        troubles=wiring.first_control(lambda run, rng: Trouble(touch=run.program.touch[0])),
    ),
    Kind(
        "heater lost while heating",
        HEATER_LOSS,
        program=driving.heater_lost_heating,
        edit=edits.heater_lost,
    ),
    Kind(
        "heater lost in the hold",
        HEATER_LOSS,
        program=driving.heater_lost_hold,
        edit=edits.heater_lost,
    ),
    Kind(
        "heater lost while heating, back at full power",
        HEATER_LOSS,
        program=driving.heater_lost_and_mended,
        edit=edits.heater_lost,
    ),
)

RUNS = (
    Kind("met: plain", program=driving.normal),
    Kind("met: near to the limits", program=driving.narrow),
    Kind("met: controllers hunt", program=driving.hunting),
    Kind(
        "met: noisy recorder", program=driving.normal, settings=lambda s, rng: replace(s, noise=0.8)
    ),
    Kind(
        "met: whole degrees", program=driving.normal, settings=lambda s, rng: replace(s, digits=1.0)
    ),
    Kind(
        "met: fahrenheit", program=driving.normal, settings=lambda s, rng: replace(s, unit="degF")
    ),
    Kind(
        "met: short dip within the excursion",
        program=driving.short_dip,
        plants=("W12", "W07"),
    ),
    Kind("met: control opens, spare takes over, noted", troubles=None, edit=edits.handover),
    Kind(
        "met: a power cut while heating, noted",
        program=driving.power_cut_heating,
        edit=edits.note_power(HEAT),
    ),
    Kind("hold short", program=driving.short),
    Kind("hold four minutes short", program=driving.barely_short),
    Kind("hold too long", program=driving.too_long, plants=("W12", "W33")),
    Kind("zone dips below the range", program=driving.dip),
    Kind("zone dips, a minute of power lost noted", program=driving.dip, edit=edits.note_minute),
    Kind("zone cold all the hold", program=driving.cold_zone),
    Kind(
        "zone cold all the hold, power lost noted",
        program=driving.cold_zone,
        edit=edits.note_minute,
    ),
    Kind("zone too hot", program=driving.hot_zone),
    Kind("hot spot that only a spare sees", program=driving.hot_spot, edit=edits.pair_apart),
    Kind(
        "power cut while heating, recorder off too",
        shown=UNSHOWN,
        program=driving.power_cut_heating,
        edit=edits.without_power,
    ),
    Kind("heating too fast", program=driving.fast_heating),
    Kind("heating ten per cent too fast", program=driving.barely_fast),
    Kind("met: some minutes too fast, not over 15 min", program=driving.briefly_fast),
    Kind("heating too fast for 20 min", program=driving.a_third_of_an_hour_fast),
    Kind("cooling too fast", program=driving.fast_cooling),
    Kind("zones too far apart in the hold", program=driving.spread_in_hold, plants=("W23",)),
    Kind("zones too far apart while heating", program=driving.spread_heating),
    Kind(
        "power cut in the hold, noted",
        program=driving.power_cut,
        edit=edits.note_power(HOLD),
        shown=OPEN,
    ),
    Kind("power cut in the hold, not noted", program=driving.power_cut),
    Kind("record begins above the start of control", shown=UNSHOWN, edit=edits.begins_late),
    Kind("record ends above the end of control", shown=UNSHOWN, edit=edits.ends_early),
    Kind("row gap over the end of the hold", shown=UNSHOWN, edit=edits.gap_at_end),
)

#: On the stricter words of plants.STRICT, by their names.
STRICTER = (
    Kind(
        "no excursion stated: minutes below the range",
        program=driving.short_dip,
        plants=(STRICT[0].name,),
    ),
    Kind("no excursion stated: met", program=driving.normal, plants=(STRICT[0].name,)),
    Kind(
        "hold starts again: minutes below the range",
        program=driving.dip_in_the_middle,
        plants=(STRICT[1].name,),
    ),
    Kind(
        "no word on an interrupted hold: minutes below the range",
        program=driving.dip_in_the_middle,
        plants=(STRICT[2].name,),
    ),
    Kind(
        "rate excursion of 15 min: too fast for 14 min, met",
        program=driving.fast_for(14.0),
        plants=(STRICT[3].name,),
    ),
    Kind(
        "rate excursion of 15 min: too fast for 16 min",
        program=driving.fast_for(16.0),
        plants=(STRICT[3].name,),
    ),
    Kind("hold starts again: met", program=driving.normal, plants=(STRICT[1].name,)),
)

ALL = (*RUNS, *STRICTER, *FAULTS)
