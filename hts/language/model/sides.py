"""Works out the sides of a joint from `between`, `pipe`, `wall` and `side`."""

from __future__ import annotations

from hts.base.findings import ERROR, Finding, Kind, Label, Report
from hts.base.quantities.number import read_number
from hts.language.model.names import Names
from hts.language.model.side import Figure, Side
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.joint import Joint
from hts.language.vocabulary.sides import Pipe
from hts.language.vocabulary.sides import Side as Said
from hts.science.tables.grades import UnknownGrade, grade
from hts.science.tables.pipe import UnknownSchedule, UnknownSize, nominal_size_of, pipe

UNKNOWN_PIPE = Kind(
    "J101",
    "unknown-pipe-size",
    ERROR,
    "A nominal size or schedule the pipe tables do not have.",
    "Bands, arc lengths and hold time follow from the diameter and the wall.",
    "Use a size and schedule of the table, or state outside diameter and wall.",
    ERROR,
)
UNKNOWN_GRADE = Kind(
    "M101",
    "unknown-grade",
    ERROR,
    "A grade the grade table does not have, with no P-number stated.",
    "Without its group no rule about the material can be applied.",
    "State p-number, group, tensile strength and lower critical temperature of the material.",
)

KINDS = (UNKNOWN_PIPE, UNKNOWN_GRADE)


def of(entry: Joint, name: str, names: Names, report: Report) -> list[Side]:
    """The sides of a joint, in the order the text names them."""
    found: dict[str, Side] = {}
    between = entry.between
    if between is not None:
        ends = ("run", "branch") if entry.kind == "branch" else ("upstream", "downstream")
        for end, reference in zip(ends, (between.first, between.second), strict=True):
            side = Side(end)
            side.material = names.resolve(reference, between)
            found[end] = side
    for stated in entry.sides:
        side = found.setdefault(stated.name, Side(stated.name))
        material = names.resolve(stated.material, stated)
        side.material = material or side.material
    for side in found.values():
        _size(side, entry.pipe, name, report)
        if entry.wall is not None and entry.wall.thickness is not None:
            side.wall = Figure(
                entry.wall.thickness, "joint", "stated", entry.wall.place("thickness")
            )
            side.wall_taken = entry.wall.taken
    for stated in entry.sides:
        side = found[stated.name]
        _size(side, stated, name, report)
        if stated.wall is not None:
            side.wall = Figure(stated.wall, f"side {stated.name}", "stated", stated.place("wall"))
            side.wall_taken = stated.taken
        elif stated.taken is not None:
            side.wall_taken = stated.taken
    for side in found.values():
        _grade(side, name, report)
    return list(found.values())


def _size(side: Side, stated: Pipe | Said | None, joint: str, report: Report) -> None:
    """Diameter and wall as an entry with a nominal size or an outside diameter gives them."""
    if stated is None:
        return
    if stated.outside_diameter is not None:
        side.outside_diameter = Figure(
            stated.outside_diameter, "stated", "stated", stated.place("outside_diameter")
        )
        side.nominal_size = nominal_size_of(stated.outside_diameter)
    size = stated.nps if stated.nps is not None else stated.dn and f"DN {stated.dn}"
    if size is None:
        return
    field = "nps" if stated.nps is not None else "dn"
    side.schedule = stated.schedule
    try:
        found = pipe(size, stated.schedule or "STD")
    except UnknownSize as error:
        _say(
            report,
            stated,
            field,
            joint,
            f"there is no pipe of size {error.size}",
            f"the nearest sizes are: {', '.join(error.close)}",
        )
        return
    except UnknownSchedule as error:
        if stated.schedule is None:
            return
        _say(
            report,
            stated,
            "schedule",
            joint,
            f"NPS {error.nps} has no schedule {error.schedule}",
            f"it has {', '.join(error.available)}",
        )
        return
    side.nominal_size = read_number(found.nps)
    if stated.outside_diameter is None:
        side.outside_diameter = Figure(
            found.outside_diameter, found.source, found.basis, stated.place(field)
        )
    if stated.schedule is not None:
        side.wall = Figure(found.wall, found.source, found.basis, stated.place("schedule"))
        side.wall_taken = "nominal"


def _grade(side: Side, joint: str, report: Report) -> None:
    material = side.material
    if material is None or material.grade is None:
        return
    try:
        side.grade = grade(material.grade)
    except UnknownGrade as error:
        if material.p_number is None and material.en_group is None:
            hint = f"did you mean {' or '.join(error.suggestions)}? " if error.suggestions else ""
            report.add(
                Finding(
                    UNKNOWN_GRADE,
                    f"the grade table has no {material.grade!r}",
                    Label(material.place("grade")),
                    address=material.name,
                    help=f"{hint}if not, state its p-number and group",
                )
            )


def _say(report: Report, stated: Entry, field: str, joint: str, message: str, help: str) -> None:
    report.add(Finding(UNKNOWN_PIPE, message, Label(stated.place(field)), address=joint, help=help))
