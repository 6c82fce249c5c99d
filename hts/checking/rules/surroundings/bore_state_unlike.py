"""The state of the bore agrees with liner, ends and draught."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.heating import Heating

_ENDS = "    ends           closed and vented"
_CLOSED = ("closed and vented", "closed", "plugged")

RULE = Rule(
    "N111",
    "bore-state-unlike",
    "warning",
    summary="A state of the bore that liner, ends or draught contradict, or a draught through "
    "closed ends.",
    why="What is predicted of the inside hangs on the state of the bore more than on anything else.",
    fix="Correct one of the two.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_ENDS, f"{_ENDS}\n    bore state     draughty"),), at="draughty"),
        Bad(((_ENDS, f"{_ENDS}\n    bore state     lined"),), at="lined"),
        Bad(
            (
                (
                    _ENDS,
                    f'{_ENDS}\n    liner "ceramic fibre blanket" thickness 25 mm\n'
                    "    bore state     packed",
                ),
            ),
            at="packed",
        ),
        Bad(
            (
                (
                    _ENDS,
                    f"{_ENDS}\n    draught        through the bore\n"
                    "    bore state     closed and still",
                ),
            ),
            at="closed and still",
        ),
        Bad(
            ((_ENDS, f"{_ENDS}\n    draught        through the bore"),),
            at="through the bore",
            says="air draws through the bore of W12, and the ends are closed and vented",
        ),
    ),
    good=(
        Good(((_ENDS, f"{_ENDS}\n    bore state     closed and still"),)),
        Good(
            (
                (
                    _ENDS,
                    f'{_ENDS}\n    liner "ceramic fibre blanket" thickness 25 mm width 700 mm total\n'
                    "    bore state     lined",
                ),
            )
        ),
    ),
    agrees=(
        Agreement("joint.heating.bore state", "joint.heating.liner.material", "lined, or not"),
        Agreement("joint.heating.bore state", "joint.heating.ends", "open, or closed"),
        Agreement("joint.heating.bore state", "joint.heating.draught.state", "still, or draughty"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None:
        return
    if heating.bore_state is None:
        _draught_through_closed_ends(case, joint, heating)
        return
    state = heating.bore_state
    other, words = "", ""
    if (state == "lined") != (heating.liner is not None):
        if heating.liner is not None:
            other, words = "liner", f"a liner of {heating.liner.material!r} is stated"
        elif state == "lined":
            other, words = "bore_state", "no liner is stated"
    elif state in ("open", "draughty") and heating.ends in _CLOSED:
        other, words = "ends", f"the ends are {heating.ends}"
    elif state == "closed and still" and heating.ends == "open":
        other, words = "ends", "the ends are open"
    elif heating.draught is not None and _unlike(state, heating.draught.state):
        other, words = "draught", f"the draught is said to be {heating.draught.state}"
    if not words:
        return
    case.add(
        RULE.found(
            f"the bore state is {state}, and {words}",
            heating.place("bore_state"),
            address=f"{joint.address}/heating",
            others=[Label(heating.place(other), "stated here")] if other != "bore_state" else [],
        )
    )


def _unlike(state: str, draught: str) -> bool:
    if draught == "through the bore":
        return state in ("closed and still", "packed")
    return state == "draughty"


def _draught_through_closed_ends(case: Case, joint: Joint, heating: Heating) -> None:
    draught = heating.draught
    if draught is None or draught.state != "through the bore" or heating.ends not in _CLOSED:
        return
    case.add(
        RULE.found(
            f"air draws through the bore of {joint.name}, and the ends are {heating.ends}",
            draught.place("state"),
            address=f"{joint.address}/heating",
            others=[Label(heating.place("ends"), "the ends")],
            basis=RULE.basis,
        )
    )
