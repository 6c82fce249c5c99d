"""A weld made where it stands is not preheated in a furnace."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_METHOD = "  method            resistance"
_FURNACE = "  method            furnace"
_UNTIL = "  keep until        end of welding"
_KEPT = "  keep until        post-weld heat treatment"

RULE = Rule(
    "P135",
    "preheated-in-furnace-on-site",
    "warning",
    summary="Preheat in a furnace for a weld made in the field, or kept until a treatment that heats "
    "the weld where it stands.",
    why="There is no furnace at the pipe: whoever comes first takes what lies there, and nothing holds "
    "the preheat from the furnace to the first arc, nor to the treatment.",
    fix="Write the method used at the joint: `resistance`, `induction` or `gas`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_METHOD, _FURNACE),), at="furnace", says="is made in the field"),
        Bad(
            (("  made in    field", "  made in    shop"), (_METHOD, _FURNACE), (_UNTIL, _KEPT)),
            at="furnace",
            says="kept hot … by resistance",
        ),
    ),
    good=(
        Good((("  made in    field", "  made in    shop"), (_METHOD, _FURNACE))),
        Good(((_METHOD, "  method            gas"),)),
    ),
    agrees=(
        Agreement("preheat.method", "joint.made in", "a furnace in the shop only"),
        Agreement("preheat.method", "joint.heating.by", "what keeps it hot until the treatment"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat, heating = joint.preheat, joint.entry.heating
    if preheat is None or not preheat.sound or preheat.method != "furnace":
        return
    # A furnace built round a vessel where it stands heats for welding as well.
    if heating is not None and heating.method == "furnace":
        return
    for why, seen in _reasons(joint):
        case.add(
            RULE.found(
                f"{joint.name} is preheated in a furnace, and {why}",
                preheat.place("method"),
                address=f"{joint.address}/preheat",
                others=[seen],
                basis=RULE.basis,
            )
        )
        return


def _reasons(joint: Joint) -> Iterator[tuple[str, Label]]:
    preheat, heating = joint.preheat, joint.entry.heating
    assert preheat is not None
    if joint.entry.made == "field":
        yield "is made in the field", Label(joint.entry.place("made"), "made here")
    if heating is not None and preheat.until in ("bake", "post-weld heat treatment"):
        yield (
            f"kept hot until it is heated by {heating.method}",
            Label(heating.place("method"), "the method"),
        )
