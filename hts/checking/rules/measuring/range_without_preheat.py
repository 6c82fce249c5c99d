"""Instruments that record or control preheat can read it."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.equipment import Controller, Recorder

_BY = ("  keep until        end", "  recorded by       R1\n  keep until        end")
_WIRE = ("  measured by       contact", "  measured by thermocouple\n  measured by       contact")
_RANGE = "channels    12 type K range 0 .. 1200"

_R9 = (
    "recorder R1 {",
    """recorder R9 {
  serial      "40-119"
  channels    12 type K range 0 .. {} degC
  interval    60 s
  error       +/- 1.5 degC
  resolution  1 K
  calibrated  2026-09-01 until 2027-03-01
}

recorder R1 {""",
)

RULE = Rule(
    "C135",
    "range-without-preheat",
    "warning",
    summary="A recorder or controller of the preheat whose range begins above the preheat, or ends "
    "below the interpass temperature where nothing hotter is to be read.",
    why="The line of the chart begins too late, and nobody sees that the weld was begun cold.",
    fix="Use an instrument, or a range, that covers both.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (_BY, _WIRE, (_RANGE, _RANGE.replace("0 .. 1200", "{} .. 1200"))),
            keeps="150",
            breaks="151",
            says="from 151 degC (304 degF) … at 150 degC (302 degF)",
        ),
        # One of its own, which reads no hold.
        Edge(
            (
                ("  keep until        end", "  recorded by       R9\n  keep until        end"),
                _WIRE,
                _R9,
            ),
            keeps="315",
            breaks="314",
            at="0 .. 314",
            says="to 314 degC (597 degF) … 315 degC (599 degF)",
        ),
    ),
    good=(Good((_BY, _WIRE)),),
    agrees=(
        Agreement("preheat.recorded by", "recorder.channels.range", "the preheat is within it"),
        Agreement("preheat.controlled by", "controller.channels.range", "the preheat is within it"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None:
        return
    limits = limits_of(case, joint)
    least, most = limits.preheat(), limits.interpass()
    # Where it reads a hold, too, that is what its upper end is judged by.
    held = [each for t in case.treatments(joint) for each in (t.recorder, t.controller)]
    for field in ("recorded_by", "controlled_by"):
        reference = getattr(preheat, field)
        instrument = reference.target if reference is not None else None
        if not isinstance(instrument, Recorder | Controller) or instrument.channels is None:
            continue
        reads = instrument.channels.range
        if reads is None:
            continue
        if reads.low is not None and least is not None and reads.low > least:
            told = f"from {reads.low.both()}, the preheat is at {least.both()}"
        elif (
            reads.high is not None
            and most is not None
            and reads.high < most
            and instrument not in held
        ):
            told = f"up to {reads.high.both()}, the interpass temperature is {most.both()}"
        else:
            continue
        case.add(
            RULE.found(
                f"{instrument.name} reads {told}",
                instrument.channels.place("range"),
                address=instrument.name,
                others=[Label(preheat.place(field), f"the preheat of {joint.name}")],
                basis=RULE.basis,
            )
        )
        return
