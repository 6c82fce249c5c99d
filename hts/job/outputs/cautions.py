"""The cautions at the end of every sheet."""

from __future__ import annotations

from collections.abc import Iterable

from hts.checking.govern.applying import applies
from hts.job.compiler.job import Job, JointSheet
from hts.job.outputs.paper import Paper

#: Sign (ISO 7010) and text, with what they are only true for.
_USUAL = (
    (
        "hot surface",
        "Burns: pipe and insulation reach 800 °C. Barriers and signs are up before power goes "
        "on; the insulation hides heat long after it is off.",
        "",
    ),
    (
        "electricity",
        "Electric shock: even the low voltage of the heaters kills in wet or narrow places. "
        "Isolate and lock before touching a heater or lead; earth the part; a bare thermocouple "
        "wire can carry heater voltage to the recorder.",
        "resistance",
    ),
    (
        "electricity",
        "Electric shock: coil and supply carry a voltage that kills. Isolate and lock before "
        "touching coil or lead; earth the part.",
        "induction",
    ),
    (
        "magnetic field",
        "Induction: a strong magnetic field. Nobody with an implant comes near; rings and loose "
        "steel are kept away; signal cables are laid apart.",
        "induction",
    ),
    (
        "fire",
        "Gas: flame failure and poor air kill. Flame supervision and ventilation are on.",
        "gas",
    ),
    (
        "eye protection",
        "Attachment unit: it stores energy that hurts and ignites. Wear eye protection; never "
        "discharge it in a flammable atmosphere.",
        "attachment",
    ),
    (
        "mask",
        "Fibres: insulation sheds fibres that must not be breathed in. Mask, gloves, wetting, "
        "bags.",
        "",
    ),
    (
        "fire",
        "Fire: hot-work permit and fire watch; nothing that can burn nearby, inside the pipe, or "
        "in adjacent lines.",
        "",
    ),
    (
        "suffocation",
        "Confined space: gas test, ventilation and a person outside; purge gas displaces air.",
        "",
    ),
    (
        "overhead load",
        "Movement: hot pipe grows, loses strength and can bend under its own weight. Supports, "
        "springs and free ends are checked before heat; nobody stands beneath.",
        "",
    ),
    (
        "danger",
        "Pressure: liquid shut in bursts the pipe. The bore is isolated, drained and vented.",
        "",
    ),
)
APPROVAL = (
    "A responsible person approves this paper before it is used. The codes in force at the place "
    "of work and the purchaser's documents come first; where they differ from this paper, ask.",
)


def write(page: Paper, job: Job) -> None:
    """The cautions of the job itself, then the usual ones, under a heading."""
    page.heading(2, "Cautions")
    listed(page, job)


def listed(page: Paper, job: Job) -> None:
    """The same without the heading."""
    own = own_cautions(job)
    if own:
        page.line("For this job:")
        page.bullets(own)
        page.line("Always:")
    page.bullets((*(text for _, text in usual(job.joints)), *APPROVAL))


def usual(sheets: Iterable[JointSheet]) -> list[tuple[str, str]]:
    """Sign and text of every usual caution that these joints give reason for."""
    reasons: set[str] = set()
    for sheet in sheets:
        heating, preheat = sheet.joint.entry.heating, sheet.joint.preheat
        methods = {one.method for one in (heating, preheat) if one is not None and one.method}
        # A heater nobody names is taken for the kind that hurts most people.
        reasons |= methods or {"resistance"}
        block = sheet.joint.entry.thermocouples
        if block is not None and (
            block.attached is None or block.attached.how == "capacitor discharge"
        ):
            reasons.add("attachment")
    return [(sign, text) for sign, text, only in _USUAL if not only or only in reasons]


def own_cautions(job: Job, *, books: bool = True) -> list[str]:
    """Cautions of the text and of the books and procedures that govern, each once; those of books
    are about their figures."""
    found: dict[str, None] = {}
    for sheet in job.joints:
        joint = sheet.joint
        for work in (*joint.before, *joint.during, *joint.after):
            found.update(dict.fromkeys(work.cautions))
    for authority in job.authorities:
        if authority.is_book and not books:
            continue
        # A procedure that is not for these joints has nothing to say about them.
        procedure = authority.procedure
        if procedure is None or any(applies(procedure, sheet.limits) for sheet in job.joints):
            found.update(dict.fromkeys(f"{authority.name}: {text}" for text in authority.cautions))
    return list(found)
