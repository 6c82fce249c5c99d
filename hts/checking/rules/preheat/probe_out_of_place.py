"""A contact probe stays where the heat is greatest, on the metal."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_PROBE = "contact probe at 76 mm"

RULE = Rule(
    "P113",
    "probe-out-of-place",
    "warning",
    summary="A contact probe held at the edge of the heated zone, on the heated face, or not under "
    "the blanket.",
    why="Away from the middle, or off the metal, it reads too low, and the part is overheated; on "
    "the heated face it reads the surface, and the root is cold.",
    fix="Keep it in the middle of the heated zone, under the blanket, pressed to the metal.",
    source="common practice, no source; ISO 13916:2017 4.1 prefers the face away from the heat",
    basis="practice",
    bad=(
        Bad(((_PROBE, f"{_PROBE} placed at the edge of the heat"),), at="at the edge of the heat"),
        Bad(((_PROBE, f"{_PROBE} kept over the blanket"),), at="over the blanket"),
        Bad((("on face toward the welder", "on heated face"),), at="heated face"),
    ),
    good=(
        Good(((_PROBE, f"{_PROBE} placed in the middle of the heat kept under the blanket"),)),
        Good((("contact probe at 76 mm", "pyrometer at 76 mm kept beside the blanket"),)),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for way in joint.preheat.measured if joint.preheat is not None else ():
        if way.how != "contact probe":
            continue
        for field, stated, right in (
            ("face", _wrong_face(way.face), "on face away from the heat"),
            ("placed", way.placed, "placed in the middle of the heat"),
            ("kept", way.kept, "kept under the blanket"),
        ):
            if stated is not None and not right.endswith(stated):
                case.add(
                    RULE.found(
                        f"the contact probe at {joint.name} is {_WORDS[field]} {stated}",
                        way.place(field),
                        address=f"{joint.address}/preheat",
                        help=f"write `{right}`",
                        basis=RULE.basis,
                    )
                )
                return


_WORDS = {"face": "on the", "placed": "placed", "kept": "kept"}


def _wrong_face(face: str | None) -> str | None:
    return face if face == "heated face" else None
