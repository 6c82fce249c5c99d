"""Every kind of change, and what it asks for: one row each, on the axes area, kind and action.

The verdicts of a row stand in the order of ACTIONS: R for re-approve, V for review, n for note, and
a dot where the action cannot come about. Which action a change of a value is follows from `sense`:
a MAXIMUM lowered is tightened, a MINIMUM raised is tightened, a RANGE inside the one before is
tightened, and any other quantity has moved.

What has to be approved again is common practice and follows the usual list of a heat-treatment
contractor's procedure: material, thickness, diameter, hold, rates, thresholds, bands, layout of
heaters, zones, thermocouples, method, class of instruments, edition of the code, what lies in the
band, and a repeated cycle. The rows that stand on a paragraph of a standard are in
`hts.job.comparison.requalify`.
"""

# A table is read row by row, whatever its width.
# ruff: noqa: E501

from __future__ import annotations

from hts.job.comparison.registry import MAXIMUM, MINIMUM, PLAIN, RANGE, Row, Waived

_LOOSER = "it allows more than was approved"
_STRICTER = "stricter than approved stays within what was approved"


def _uncovered(kind: str, source: str) -> Row:
    """What the qualification no longer covers, or covers again."""
    why = "the qualification does not cover it"
    return Row("requalification", kind, PLAIN, "Rn...R.", (), why, "", source, "published")


def _undecided(kind: str, source: str, basis: str = "published") -> Row:
    """What cannot be told without more facts: a value goes away from the qualification (loosened)
    or towards it (tightened)."""
    kind = f"{kind}, undecided"
    why = "the files do not say enough to decide"
    return Row("requalification", kind, PLAIN, "VnnV.V.", (), why, "", source, basis)


def _of_ix(kind: str, paragraph: str) -> tuple[Row, Row]:
    source = f"ASME IX {paragraph} (as quoted elsewhere)"
    return _uncovered(kind, source), _undecided(kind, source)


#                                                    added removed tightened loosened moved changed renamed
ROWS: tuple[Row, ...] = (
    # What the document says of itself
    Row("document", "specification", PLAIN, "RR.....", (), "the whole document"),
    Row("document", "unreadable text", PLAIN, "VV...V.", (), "what could not be read was not compared", "the text that could not be read"),
    Row("document", "settings", PLAIN, "VV...V.", (), "settings say what counts in a check and which books hold unless said", "the same checks on both sides: both are judged under the settings of the working folder"),
    Row("document", "revision kept", PLAIN, ".....R.", (), "two different papers would carry the same revision"),
    Row("document", "silent history", PLAIN, ".....R.", (), "the history does not tell what this revision changed"),
    Row("document", "identity", PLAIN, "nn..nnn", ("job",), "names the document, not the work"),
    Row("document", "revision", PLAIN, "nn..nnn", ("job.revision",), "tells the issue apart"),
    Row("document", "weld list revision", PLAIN, "nn...n.", (), "the list has a revision of its own, which is printed"),
    Row("document", "results", PLAIN, "nR..RRn", ("results",), "what was found is evidence, and a judgement rests on it", calm="more was found and written down"),
    Row("document", "history", PLAIN, "nn..nnn", ("job.history",), "tells what changed when"),
    Row("document", "signing role", PLAIN, "nR..RRn", ("job.signed",), "somebody else answers for it", calm="one more answers for it"),
    Row("document", "signature", PLAIN, "nn..nnn", ("job.signed.*.on",), "the day somebody signed"),
    Row("document", "scope", MAXIMUM, "RRRR.Rn", ("job.scope",), "the approval covers what the scope says"),
    Row("document", "range of the scope", RANGE, "RRRRRRn", ("job.scope.outside diameter", "job.scope.wall"), "the approval covers what the scope says"),
    Row("document", "purpose", PLAIN, "nn..nnn", ("job.scope.purpose", "job.scope.application"), "describes the work"),
    Row("document", "units on paper", PLAIN, "RR..RRn", ("job.show",), "a book prints its limits in both systems, and the first one governs"),
    Row("document", "referred document", PLAIN, "VV..VVn", ("job.reference",), "the document referred to", "its text"),
    Row("document", "open point", PLAIN, "VV..VVn", ("job.open point",), "something is still to be settled", "what the point comes to"),
    Row("document", "settled point", PLAIN, "nR..VVn", ("job.open point.closed",), "a point that was settled is open, or settled otherwise", "what it came to", calm="the day the point was settled"),
    Row("document", "client's answer", PLAIN, "nR..RRn", ("job.revision.answer",), "the client's answer decides whether the work may begin", calm="the client has answered"),
    Row("document", "permit", PLAIN, "nR..VVn", ("job.permit",), "work may only be done under it", "the permit now in force", calm="a permit is named"),
    Row("document", "crew", PLAIN, "nV..VVn", ("job.crew",), "somebody else watches the heats, or at other hours", "that a crew is there all through every heat", calm="one more crew is there"),
    Row("document", "heats of a crew", MAXIMUM, "VVnV.Vn", ("job.crew.watches",), "more heats at once are watched by as many people", "how many heats the crew can watch", calm="fewer heats at once are watched"),
    Row("document", "language version", PLAIN, "nn..nnn", ("spec",), "version of the language"),
    # What governs
    Row("governing", "book", PLAIN, "RR..RRn", ("job.governed by",), "another book or edition governs"),
    Row("governing", "rows of a book", PLAIN, ".....R.", (), "a rule book of this repository says something else"),
    Row("governing", "procedure", PLAIN, "RR..RRn", ("job.follows",), "another procedure governs"),
    Row("governing", "precedence", PLAIN, "RR..RRn", ("job.precedence",), "which document prevails"),
    Row("governing", "waiver", PLAIN, "RR..RRn", ("waive",), "a rule is set aside, or no longer"),
    # The owner's procedure
    Row("procedure", "procedure", PLAIN, "RR..RRn", ("procedure",), "the owner's limits"),
    Row("procedure", "identity", PLAIN, "nn..nnn", ("procedure.name", "procedure.title", "procedure.revision", "procedure.prepared"), "names the procedure"),
    Row("procedure", "standing of the procedure", PLAIN, "RR..RRn", ("procedure.revision.status", "procedure.revision.answer"), "whether it is in force"),
    Row("procedure", "limit", PLAIN, "RR..RRn", tuple(f"procedure.{part}" for part in ("*", "*.is", "*.when", "*.above", "*.within", "*.in total", "*.each", "*.replaces")), "the owner's limit"),
    Row("procedure", "lower limit", MINIMUM, "RRRR.Rn", ("procedure.*.at least",), "the owner's limit"),
    Row("procedure", "upper limit", MAXIMUM, "RRRR.Rn", ("procedure.*.at most",), "the owner's limit"),
    Row("procedure", "reason of a limit", PLAIN, "nn..nnn", ("procedure.*.because",), "explains the limit"),
    Row("procedure", "demand", MINIMUM, "RRRR.Rn", tuple(f"procedure.{verb}" for verb in ("requires", "figure limit", "prefers", "forbids", "allows")), "what the owner asks of a job"),
    Row("procedure", "check", PLAIN, "nR..RRn", ("procedure.check",), "it was to be looked at on every job", calm="one more thing is looked at"),
    Row("procedure", "text for the paper", PLAIN, "nR..VVn", ("procedure.caution", "procedure.hand over", "procedure.leaves to the job"), "people at the pipe act on it", "whether the instruction is still right", calm="it says more to the people at the pipe"),
    # Metal
    Row("material", "base metal", PLAIN, "RR..RRn", ("material",), "the metal decides range, time and preheat"),
    Row("material", "heat or certificate", PLAIN, "nV..VVn", ("material.heat number", "material.tempered.certificate", "joint.side.heat number"), "tells the part apart", "the certificate of that heat", calm="it is told now"),
    Row("material", "filler", PLAIN, "RR..RRn", ("filler",), "the deposit is heated as well"),
    # The joint
    Row("joint", "joint", PLAIN, "RR..RRV", ("joint",), "a weld to be treated", "whether it is the same weld"),
    Row("joint", "material of a side", PLAIN, "RR..RRn", ("joint.side.of",), "the metal decides range, time and preheat"),
    Row("joint", "size", PLAIN, "RR..RRn", ("joint.side", "joint.heavy section", "joint.kind", "joint.throat", "joint.groove depth", "joint.cap width", "joint.governing thickness", "joint.branch weld"), "hold, rates and bands follow from it"),
    Row("joint", "measured or nominal", PLAIN, "VV..VVn", ("joint.side.taken",), "where the wall is from", "the reading of the wall"),
    Row("joint", "schedule", PLAIN, "VV..VVn", ("joint.side.schedule",), "the wall it stands for is compared by itself", "which pipe is fitted"),
    Row("joint", "position", PLAIN, "RR..RRn", ("joint.axis", "joint.datum", "joint.viewed", "joint.flow", "joint.seam", "joint.pad"), "zones and thermocouples lie by it"),
    Row("joint", "service", PLAIN, "RR..RRn", ("joint.service",), "the service may ask for treatment"),
    Row("joint", "drawing", PLAIN, "VV..VVn", ("joint.drawing", "joint.drawing revision"), "the drawing", "what changed on it"),
    Row("joint", "calculation", PLAIN, "VV..VVn", ("joint.calculation",), "the calculation", "its result"),
    Row("joint", "place in the plant", PLAIN, "nn..nnn", ("joint.line", "joint.spool", "joint.made in"), "tells where the weld is"),
    Row("joint", "earlier treatment", PLAIN, "RR..RRn", ("joint.already heated",), "it counts in the time at temperature"),
    Row("surroundings", "something nearby", PLAIN, "RR..RRn", ("joint.nearby",), "what lies in or near the band"),
    Row("surroundings", "limit of something nearby", MAXIMUM, "nRnR.Rn", ("joint.nearby.at most",), "it may get hotter than was approved", calm="it is kept cooler than was approved"),
    Row("surroundings", "support", PLAIN, "RR..RRn", ("joint.support", "joint.expansion", "joint.flanges", "joint.unsupported span"), "how the line is held while hot"),
    Row("qualification", "qualification record", PLAIN, "VV..VVn", ("joint.qualified",), "the record that supports the weld", "the record itself"),
    Row("qualification", "welding procedure", PLAIN, "VV..VVn", ("joint.welding",), "the welding procedure", "the procedure itself"),
    Row("qualification", "filler or heat input", PLAIN, "RR..RRn", ("joint.welding.filler", "joint.welding.heat input"), "the deposit and its heating"),
    # How it is heated
    Row("heating", "arrangement", PLAIN, "RR..RRn", ("joint.heating",), "how the joint is heated"),
    Row("heating", "owner's acceptance", PLAIN, "nR..RRn", ("joint.heating.accepted by",), "local heating needs it", calm="the acceptance is told now"),
    Row("heating", "band", MINIMUM, "RRRR.Rn", ("joint.heating.soak band", "joint.heating.heated band", "joint.heating.gradient band"), "the width heated or insulated"),
    Row("heating", "number of zones", MINIMUM, "RRRR.Rn", ("joint.heating.zones",), "zones even out the temperature"),
    Row("heating", "zone", PLAIN, "RR..RRn", ("joint.heating.zone",), "what one controlling thermocouple heats"),
    Row("heating", "circuit", PLAIN, "nn..nnn", ("joint.heating.zone.circuit", "joint.heating.heater.circuit", "joint.heating.furnace.name"), "which supply or furnace it is"),
    Row("heating", "gap or overlap", MAXIMUM, "RRnR.Rn", ("joint.heating.gap at most", "joint.heating.overlap at most"), "cold or hot strips between heaters", calm="less of a gap or overlap than was approved"),
    Row("heating", "insulation material", PLAIN, "VV..VVn", ("joint.heating.insulation.material", "joint.heating.inside insulation.material", "joint.heating.liner.material"), "the insulation", "what the material withstands and holds back"),
    # How it is measured
    Row("measuring", "wire and attachment", PLAIN, "RR..RRn", ("joint.thermocouples",), "what the thermocouples read"),
    Row("measuring", "cable and calibration", PLAIN, "nn..nnn", tuple(f"joint.thermocouples.{part}" for part in ("lead at least", "wire lot", "colours", "calibrated", "reference junction", "extension.length", "thermocouple.lead")), "identity of the wire; what it reads stays"),
    Row("measuring", "thermocouple", PLAIN, "RR..RRn", ("joint.thermocouples.thermocouple",), "where and for what it is measured"),
    Row("measuring", "channel", PLAIN, "nR..nnn", tuple(f"joint.thermocouples.thermocouple.{part}" for part in ("channel", "control channel")), "without a channel nothing is recorded or controlled", calm="another place to plug in the lead"),
    Row("measuring", "lead left unconnected", PLAIN, "Rn..nnn", ("joint.thermocouples.thermocouple.not connected",), "what is not connected is not recorded", calm="the lead is connected again"),
    # Preheat
    Row("preheat", "preheat", PLAIN, "RR..RRn", ("preheat",), "temperature before the arc"),
    Row("preheat", "minimum preheat", MINIMUM, "RRRR.Rn", ("preheat.at least", "preheat.maintain at least", "preheat.soak", "preheat.width"), "temperature before the arc"),
    Row("preheat", "interpass or rate", MAXIMUM, "RRRR.Rn", ("preheat.interpass", "preheat.heating rate at most"), "temperature while welding"),
    Row("preheat", "way of measuring", PLAIN, "RR..RRn", ("preheat.measured by",), "how preheat is measured"),
    # Hydrogen release and post-weld heat treatment
    Row("treatment", "hydrogen release", PLAIN, "RR..RRn", ("bake",), "release of hydrogen after welding"),
    Row("treatment", "shortest delay of testing", MINIMUM, "RRnR.Rn", ("bake.test after",), "cracks come late, and how soon it is tested has changed", calm="it is tested later than was approved"),
    Row("treatment", "cycle", PLAIN, "RR..RRn", ("cycle",), "what the metal sees"),
    Row("treatment", "step", PLAIN, "RR..RRn", ("treatment.heat", "treatment.hold", "treatment.cool"), "what the metal sees"),
    Row("treatment", "order of steps", PLAIN, ".....R.", (), "what the metal sees, and when"),
    Row("treatment", "rate", MAXIMUM, "RRRR.Rn", ("treatment.heat.at most", "treatment.cool.at most"), "stress while heating and cooling"),
    Row("treatment", "slowest rate", MINIMUM, "RRRR.Rn", ("treatment.heat.at least", "treatment.cool.at least"), "time spent on the way"),
    Row("treatment", "hold range", RANGE, "RRRRRRn", ("treatment.hold.range",), "temperature of the metal"),
    Row("treatment", "hold time", MINIMUM, "RRRR.Rn", ("treatment.hold.for",), "time at temperature"),
    Row("treatment", "longest hold", MAXIMUM, "RRRR.Rn", ("treatment.hold.at most",), "time at temperature"),
    Row("treatment", "tolerated deviation", MAXIMUM, "nRnR.Rn", tuple(f"treatment.{part}" for part in ("heating spread", "holding spread", "wait for slowest within", "alarm above", "deviation alarm", "remove insulation below")), _LOOSER, calm=_STRICTER),
    Row("treatment", "tolerated time", MAXIMUM, "RnnR.Rn", ("treatment.excursion", "treatment.rate excursion"), _LOOSER, calm=_STRICTER),
    Row("treatment", "length a spread counts over", MINIMUM, "RnnR.Rn", ("treatment.heating spread.within", "treatment.holding spread.within"), _LOOSER, calm=_STRICTER),
    Row("treatment", "low alarm", MINIMUM, "nRnR.Rn", ("treatment.alarm below",), _LOOSER, calm=_STRICTER),
    Row("treatment", "condition before treatment", MAXIMUM, "nRnR.Rn", ("cycle.first cool below", "cycle.begin within", "cycle.charge at most", "cycle.unload at most"), _LOOSER, calm=_STRICTER),
    Row("treatment", "margin", MINIMUM, "nRnR.Rn", ("cycle.margin below lower critical", "cycle.margin below tempering"), _LOOSER, calm=_STRICTER),
    Row("treatment", "controller program", PLAIN, "VV..VVn", ("treatment.program", "treatment.program revision"), "the program", "the program that is set"),
    # What books and procedures ask for, worked out
    Row("limit", "lower limit in force", MINIMUM, "RRRR.R.", (), "the value in force follows from it"),
    Row("limit", "upper limit in force", MAXIMUM, "RRRR.R.", (), "the value in force follows from it"),
    Row("limit", "value in force", PLAIN, "RR..RR.", (), "the value in force follows from it"),
    Row("limit", "demand in words", PLAIN, "RR...R.", (), "whether it is treated, or an option may be used"),
    Row("limit", "undecided limit", PLAIN, "Vn.....", (), "it may or may not apply", calm="it can be told now"),
    # What a check of either side finds
    Row("check", "limit or rule", PLAIN, "Rn.....", (), "the text as it is now breaks it", calm="the text meets it again"),
    Row("check", "advice", PLAIN, "nn.....", (), "a check advises on it"),
    # Whether the welding qualification still covers the joint
    *_of_ix("heat-treatment condition", "QW-407.1"),
    *_of_ix("time at temperature", "QW-407.2"),
    *_of_ix("thickness above upper critical", "QW-407.4"),
    *_of_ix("preheat drop", "QW-406.4"),
    _undecided("interpass rise", "ASME IX QW-406.4 (as quoted elsewhere)"),
    *_of_ix("hydrogen release", "QW-406.11"),
    _undecided("hold range of the test piece", "ISO 15614-1", "memory"),
    # Instruments and power
    Row("equipment", "instrument", PLAIN, "nn..nnn", ("instrument",), "counts where something is recorded or controlled by it"),
    Row("equipment", "class of instrument", PLAIN, "RR..RRn", ("instrument.channels",), "what it can read"),
    Row("equipment", "error of instrument", MAXIMUM, "nRnR.Rn", ("instrument.error", "instrument.error of reading", "instrument.error of span", "instrument.resolution", "controller.control tolerance", "recorder.interval"), "it is measured less well than was approved", calm="it is measured no less well than was approved"),
    Row("equipment", "identity of instrument", PLAIN, "nn..nnn", ("instrument.serial", "instrument.calibrated", "controller.segments", "controller.unit", "controller.time base", "recorder.chart speed", "recorder.traces told by", "recorder.clock"), "a like instrument in its place"),
    Row("equipment", "power source", PLAIN, "nn..nnn", ("power source",), "a supply; what is heated stays"),
    Row("equipment", "output of a supply", PLAIN, "RR..RRn", ("power source.kind", "power source.output", "power source.circuit power", "power source.circuits", "power source.voltage", "power source.current", "power source.cable rating"), "power the zones can have"),
    # Work before, during and after heating
    Row("work", "check or point", PLAIN, "nR..RRn", ("work", "work.check", "work.hold point", "work.witness point", "work.review point"), "somebody was to look, or to release", calm="one more looks, or releases"),
    Row("work", "examination", PLAIN, "nR..RRn", ("work.examine",), "what was tested", calm="more is tested"),
    Row("work", "report number", PLAIN, "nn..nnn", ("work.examine.report",), "number of the report"),
    Row("work", "lowest value asked for", MINIMUM, "nRnR.Rn", ("work.insulation resistance at least", "work.examine.after", "work.hardness.at least", "work.hardness.count", "work.keep records"), _LOOSER, calm=_STRICTER),
    Row("work", "highest value allowed", MAXIMUM, "nRnR.Rn", ("work.reading every", "work.hardness.at most", "work.straightness.within", "work.remove thermocouples below"), _LOOSER, calm=_STRICTER),
    Row("work", "acceptance", PLAIN, "nR..RRn", ("work.hardness", "work.straightness"), "what is accepted", calm="one more thing has to be met"),
    Row("work", "text for the paper", PLAIN, "nR..VVn", ("work.caution", "work.marking", "work.hand over", "work.thermocouple spots"), "people at the pipe act on it", "whether the instruction is still right", calm="it says more to the people at the pipe"),
)  # fmt: skip

WAIVED = (
    Waived("document", "silent history", "the history of the newer side alone is asked"),
)  # fmt: skip
