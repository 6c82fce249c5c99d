"""A procedure replaces only rows of practice, and only rows there are."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.govern.procedures import unreplaceable
from hts.checking.rules.rule import Bad, Good, Rule

RULE = Rule(
    "L223",
    "unreplaceable-row",
    "error",
    floor="error",
    summary="A procedure that replaces a row of a code, or a row that does not exist.",
    why="What a code requires is not the owner's to set aside; a misspelt row replaces nothing.",
    fix="Name a row of a practice book, such as `local-heating.zones-nps-8-to-12`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n"
                    "  hold temperature at least 690 degC replaces asme-b31.3.hold-p5",
                ),
            ),
            base="procedure",
            at="asme-b31.3.hold-p5",
        ),
        Bad(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n"
                    "  heated band at least 576 mm total replaces local-heating.hb2",
                ),
            ),
            base="procedure",
            at="local-heating.hb2",
        ),
        Bad(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n"
                    "  total hold at most 10 h replaces asme-ix.total-hold",
                ),
            ),
            base="procedure",
            at="asme-ix.total-hold",
        ),
    ),
    good=(
        Good(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n"
                    "  heated band at least 320 mm total replaces local-heating.heated-band-hb2",
                ),
                ("heated band    by rule", "heated band    320 mm total"),
                ("at 12:00, 287 mm", "at 12:00, 160 mm"),
                ("at 6:00,  287 mm", "at 6:00,  160 mm"),
            ),
            base="procedure",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for authority in case.authorities:
        procedure = authority.procedure
        if procedure is None or procedure.source is not case.spec.source:
            continue
        for line in procedure.limits:
            for written in line.replaces:
                reason = unreplaceable(written, line.quantity, procedure)
                if reason:
                    case.add(
                        RULE.found(
                            f"{written} cannot be replaced: {reason}",
                            line.place("replaces"),
                            address=authority.name,
                        )
                    )
