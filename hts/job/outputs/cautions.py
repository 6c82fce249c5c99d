"""The cautions at the end of every sheet."""

from __future__ import annotations

from hts.checking.govern.applying import applies
from hts.job.compiler.job import Job
from hts.job.outputs.paper import Paper

USUAL = (
    "Burns: heaters, pipe and insulation reach 800 °C. Barriers and signs are up before power goes "
    "on; the insulation hides heat long after it is off.",
    "Electric shock: even the low voltage of the heaters kills in wet or narrow places. Isolate "
    "and lock before touching a heater or lead; earth the part; a bare thermocouple wire can carry "
    "heater voltage to the recorder.",
    "Attachment unit: it stores energy that hurts and ignites. Wear eye protection; never "
    "discharge it in a flammable atmosphere.",
    "Fibres: insulation sheds fibres that must not be breathed in. Mask, gloves, wetting, bags.",
    "Fire: hot-work permit and fire watch; nothing that can burn nearby, inside the pipe, or in "
    "adjacent lines.",
    "Confined space: gas test, ventilation and a person outside; purge gas displaces air.",
    "Movement: hot pipe grows, loses strength and can bend under its own weight. Supports, springs "
    "and free ends are checked before heat; nobody stands beneath.",
    "Pressure: liquid shut in bursts the pipe. The bore is isolated, drained and vented.",
)
_BY_METHOD = {
    "induction": "Induction: a strong magnetic field. Nobody with an implant comes near; rings "
    "and loose steel are kept away; signal cables are laid apart.",
    "gas": "Gas: flame failure and poor air kill. Flame supervision and ventilation are on.",
}
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
    page.bullets((*USUAL, *_method_cautions(job), *APPROVAL))


def own_cautions(job: Job) -> list[str]:
    """Cautions of the text and of the books and procedures that govern, each once."""
    found: dict[str, None] = {}
    for sheet in job.joints:
        joint = sheet.joint
        for work in (*joint.before, *joint.during, *joint.after):
            found.update(dict.fromkeys(work.cautions))
    for authority in job.authorities:
        # A procedure that is not for these joints has nothing to say about them.
        procedure = authority.procedure
        if procedure is None or any(applies(procedure, sheet.limits) for sheet in job.joints):
            found.update(dict.fromkeys(f"{authority.name}: {text}" for text in authority.cautions))
    return list(found)


def _method_cautions(job: Job) -> list[str]:
    methods = set()
    for sheet in job.joints:
        heating, preheat = sheet.joint.entry.heating, sheet.joint.preheat
        methods.add(heating.method if heating is not None else None)
        methods.add(preheat.method if preheat is not None else None)
    return [text for method, text in _BY_METHOD.items() if method in methods]
