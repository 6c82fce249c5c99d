"""Whether a wrong fact of a field could hurt: through what, by the path of the field.

Common practice, no source: a fact could hurt where the metal, or whoever stands beside it, gets
another temperature, time or rate for it; where another metal is taken for it; where a temperature
is measured at another place or by an instrument nobody proved; where heat goes elsewhere; where the
pipe moves or falls; where a test or release that would show the harm is left out.
"""

from __future__ import annotations

from fnmatch import fnmatchcase

TEMPERATURE = "temperature"
TIME = "time"
RATE = "rate"
MATERIAL = "material"
SIZE = "size and wall"
EVIDENCE = "evidence"
PLACE = "place of a thermocouple"
POWER = "bands, heaters, power"
SAFETY = "pipe and people"
NONE = "could not hurt"

#: The first pattern that fits a path tells its harm.
HARM: tuple[tuple[str, str], ...] = (
    # What only says which paper, place or person it is
    ("spec*", NONE),
    ("use*", MATERIAL),
    ("job.revision.status", EVIDENCE),
    ("job.revision.answer", EVIDENCE),
    ("job.open point*", EVIDENCE),
    ("job.signed*", EVIDENCE),
    ("job.governed by*", TEMPERATURE),
    ("job.follows", TEMPERATURE),
    ("job.precedence", TEMPERATURE),
    ("job.scope.temperature at most", TEMPERATURE),
    ("job.scope.wall", SIZE),
    ("job.scope.outside diameter", SIZE),
    ("job.scope*", NONE),
    ("job.permit", SAFETY),
    ("job.crew.people", NONE),
    ("job.crew*", SAFETY),
    ("job.qualification*", SAFETY),
    ("job*", NONE),
    ("waive*", EVIDENCE),
    # What was found afterwards
    ("results*", EVIDENCE),
    # Procedures
    ("procedure.revision*", EVIDENCE),
    ("procedure.prepared*", NONE),
    ("procedure.name", NONE),
    ("procedure.title", NONE),
    ("procedure.*.because", NONE),
    ("procedure.leaves to the job", NONE),
    ("procedure.hand over", NONE),
    ("procedure.caution", SAFETY),
    ("procedure.check", SAFETY),
    ("procedure.figure limit*", EVIDENCE),
    ("procedure.requires*", PLACE),
    ("procedure.* rate*", RATE),
    ("procedure.* time*", TIME),
    ("procedure.total hold*", TIME),
    ("procedure.delay*", TIME),
    ("procedure.excursion*", TIME),
    ("procedure.applies to *", TEMPERATURE),
    ("procedure.*band*", POWER),
    ("procedure.*width*", POWER),
    ("procedure.zones*", POWER),
    ("procedure.furnace overlap*", POWER),
    ("procedure.insulation*", POWER),
    ("procedure.*thermocouples*", PLACE),
    ("procedure.spare distance*", PLACE),
    ("procedure.preheat distance*", PLACE),
    ("procedure.leg separation*", PLACE),
    ("procedure.attachment energy*", MATERIAL),
    ("procedure*", TEMPERATURE),
    # Metals
    ("material.name", MATERIAL),
    ("material*", MATERIAL),
    ("filler*", MATERIAL),
    # The joint
    ("joint.drawing*", NONE),
    ("joint.line", NONE),
    ("joint.spool", NONE),
    ("joint.made in", SAFETY),
    ("joint.calculation*", EVIDENCE),
    ("joint.between*", MATERIAL),
    ("joint.side.of", MATERIAL),
    ("joint.side.heat number", MATERIAL),
    ("joint.service", MATERIAL),
    ("joint.heat treatment asked for by", TEMPERATURE),
    ("joint.qualified*", EVIDENCE),
    ("joint.welding.filler", MATERIAL),
    ("joint.welding*", EVIDENCE),
    ("joint.already heated*", TIME),
    ("joint.nearby*", SAFETY),
    ("joint.support*", SAFETY),
    ("joint.expansion", SAFETY),
    ("joint.flanges", SAFETY),
    ("joint.unsupported span", SAFETY),
    ("joint.heating.accepted by", EVIDENCE),
    ("joint.heating.ends", SAFETY),
    ("joint.heating.bore", SAFETY),
    ("joint.heating.shelter", SAFETY),
    ("joint.heating*", POWER),
    ("joint.thermocouples.attached*", PLACE),
    ("joint.thermocouples.thermocouple*", PLACE),
    ("joint.thermocouples.calibrated*", EVIDENCE),
    ("joint.thermocouples.wire lot", EVIDENCE),
    ("joint.thermocouples*", TEMPERATURE),
    ("joint.axis*", PLACE),
    ("joint.datum", PLACE),
    ("joint.viewed", PLACE),
    ("joint.flow", PLACE),
    ("joint*", SIZE),
    # Weld lists: what a column means stands for every joint of it
    ("weld list.column*", SIZE),
    ("weld list*", NONE),
    ("book*", TEMPERATURE),
    # Treatments
    ("preheat.soak", TIME),
    ("preheat.heating rate*", RATE),
    ("preheat.width", POWER),
    ("preheat.method", POWER),
    ("preheat.recorded by", EVIDENCE),
    ("preheat.controlled by", TEMPERATURE),
    ("preheat.measured by*", PLACE),
    ("preheat.keep until", TIME),
    ("preheat*", TEMPERATURE),
    ("bake.width", POWER),
    ("bake.test after", TIME),
    ("*.hold.for", TIME),
    ("*.hold.at most", TIME),
    ("*.hold.counts from", TIME),
    ("*.heat.at *", RATE),
    ("*.cool.at *", RATE),
    ("*.heat.above", RATE),
    ("*.cool.above", RATE),
    ("*.cool.in", RATE),
    ("*.rate margin", RATE),
    ("*.rate over", RATE),
    ("*.on over-rate*", RATE),
    ("*.excursion*", TIME),
    ("*.hold counts", TIME),
    ("*.interrupted hold", TIME),
    ("*.begin within", TIME),
    ("*.recorded by", EVIDENCE),
    ("*.powered by", POWER),
    ("*.power at most", POWER),
    ("*.remove insulation below", SAFETY),
    ("*.program*", TEMPERATURE),
    ("cycle.purpose", NONE),
    ("cycle.name", NONE),
    ("bake*", TEMPERATURE),
    ("cycle*", TEMPERATURE),
    # Equipment
    ("recorder.traces told by", NONE),
    ("recorder*", EVIDENCE),
    ("controller.serial", EVIDENCE),
    ("controller.calibrated*", EVIDENCE),
    ("controller*", TEMPERATURE),
    ("power source.serial", NONE),
    ("power source*", POWER),
    # Work around the heat
    ("after heat.marking", NONE),
    ("after heat.hand over", NONE),
    ("after heat.keep records", NONE),
    ("after heat.thermocouple spots", EVIDENCE),
    ("after heat.straightness*", EVIDENCE),
    ("*.examine*", EVIDENCE),
    ("*.hardness*", EVIDENCE),
    ("*.* point*", EVIDENCE),
    ("*.reading every", EVIDENCE),
    ("*.weld *", MATERIAL),
    ("before heat*", SAFETY),
    ("during heat*", SAFETY),
    ("after heat*", SAFETY),
)


def harm(path: str) -> str:
    """What a wrong fact at a path of the vocabulary could hurt through."""
    for pattern, what in HARM:
        if fnmatchcase(path, pattern):
            return what
    raise LookupError(path)
