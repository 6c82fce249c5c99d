"""The log of preheat: one line for each pass, with where and by what it was measured."""

from __future__ import annotations

from collections.abc import Sequence

from hts.base.quantities import TEMPERATURE
from hts.job.compiler.job import JointSheet, Run
from hts.job.outputs import by_hand, key_in
from hts.job.outputs.show import DOWN, UP, sign
from hts.paper.packet import letters
from hts.paper.packet.groups import Subject, headed
from hts.paper.packet.pages import Block, Pages

#: Height of a row to write in, mm.
ROW = 4.8
#: Lines of the log; of each of several joints; where the joint has no other treatment.
_PASSES, _PASSES_EACH, _PASSES_ALONE = 5, 3, 20


def write(page: Pages, subject: Subject, preheats: Sequence[tuple[JointSheet, Run]]) -> None:
    """What is kept, and the log; joints that are preheated alike share both."""
    alike: list[tuple[list[Block], list[tuple[JointSheet, Run]]]] = []
    for sheet, run in preheats:
        own = Pages(page.frame, page.room)
        _kept(own, subject, [sheet.joint.name], run)
        # The heading names the joint.
        told = own.blocks[1:]
        for before, some in alike:
            if before == told:
                some.append((sheet, run))
                break
        else:
            alike.append((told, [(sheet, run)]))
    for _, some in alike:
        joints = [sheet.joint.name for sheet, _ in some]
        _kept(page, subject, joints, some[0][1])
        _passes(page, subject, joints, *some[0])


def _kept(page: Pages, subject: Subject, joints: Sequence[str], run: Run) -> None:
    if run.program.by_hand:
        page.heading(3, f"{headed(joints)}, preheat kept by hand")
        page.facts(
            (what, text + subject.mark(why))
            for what, text, why, _ in by_hand.rows(subject.shown, run)
        )
    else:
        key_in.preheat_to_key_in(page, subject.shown, letters.marks(), run)


def _passes(
    page: Pages, subject: Subject, joints: Sequence[str], sheet: JointSheet, run: Run
) -> None:
    hold = next(step for step in reversed(run.program.steps) if step.window is not None)
    window = hold.window
    assert window is not None and window.low is not None and window.high is not None
    unit = sign(subject.job.units.first(TEMPERATURE))
    low = subject.shown.bare(window.low, TEMPERATURE, UP)
    high = subject.shown.bare(window.high, TEMPERATURE, DOWN)
    page.heading(3, f"{headed(joints)}, preheat: readings in {unit}")
    page.line(
        f"One line before each pass. Before the arc at least {low}, interpass at most {high}. A "
        "reading outside is ringed, the arc waits, and what was done is written down."
    )
    each = _PASSES if len(joints) == 1 else _PASSES_EACH
    lines = (each if len(sheet.runs) > 1 else _PASSES_ALONE) * len(joints)
    page.form(
        (
            "Joint, pass" if len(joints) > 1 else "Pass",
            "Date, time",
            "Place: clock, from the groove, side",
            "Probe or tag",
            f"Before the arc, at least {low}",
            f"Interpass, at most {high}",
            "Welder, remarks",
            "Initials",
        ),
        [[""] * 8] * lines,
        (17 if len(joints) > 1 else 11, 24, 34, 20, 22, 22, 28, 13),
        height=ROW,
        dense=True,
    )
