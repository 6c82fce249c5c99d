"""What a procedure asks for because of a service it asks of welds in that service."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import own_procedures
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.vocabulary.procedure import Procedure

_SOUR = ("wet-hydrogen-sulphide", "sour_service")
_ALKALINE = ("amine", "caustic", "carbonate", "amine_or_caustic_service")
#: Words of a reason, the words a condition on the service has one of, and the services they mean.
_REASONS = (
    (re.compile(r"\balkaline\b", re.I), _ALKALINE, "amine, caustic or carbonate"),
    (
        re.compile(r"\bsour\b|\bhydrogen sulphide\b|\bH2S\b", re.I),
        _SOUR,
        "wet hydrogen sulphide",
    ),
    (
        re.compile(r"\bstress corrosion\b", re.I),
        (*_ALKALINE, *_SOUR, "ammonia", "hydrogen"),
        "one that cracks welds",
    ),
)
#: Services that crack no weld, in a list with others that do.
_HARMLESS = ("steam", "air", "water", "feed-water")
_LISTED = re.compile(r"\bservice in \(")
_ON_SERVICE = re.compile(r"\b\w*service\b")
_TURNED = re.compile(r"\bnot\b|!=")
_LINE = "  holding spread   at most 25 K"
_TREATED = f'{_LINE}\n  post-weld heat treatment required when service = {{}}, because "Alkaline stress corrosion cracking"'

RULE = Rule(
    "R131",
    "reason-of-other-service",
    "warning",
    summary="A line of a procedure for one service, whose reason is what another service does.",
    why="The welds the reason is about are left as they are: the condition names the wrong service.",
    fix="Correct the service, or the reason.",
    source="NACE SP0472 (alkaline cracking, wet hydrogen sulphide; from memory)",
    basis="memory",
    bad=(
        Bad(
            ((_LINE, _TREATED.format("steam")),),
            base="owner",
            at="service = steam",
            says="because of `Alkaline stress corrosion cracking`, which is amine, caustic or carbonate",
        ),
        Bad(
            ((_LINE, _TREATED.replace("= {}", "in (steam, caustic)")),),
            base="owner",
            at="service in (steam, caustic)",
            says="for service in (steam, caustic) stands because",
        ),
    ),
    good=(
        Good(((_LINE, _TREATED.replace("= {}", "in (amine, caustic)")),), base="owner"),
        Good(((_LINE, _TREATED.format("amine")),), base="owner"),
        Good(((_LINE, _TREATED.format("amine or service = steam")),), base="owner"),
    ),
    agrees=(
        Agreement(
            "procedure.post-weld heat treatment.because",
            "procedure.post-weld heat treatment.when",
            "of the service of the condition",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for line in _lines(procedure):
            condition = line.when.text
            if not _ON_SERVICE.search(condition) or _TURNED.search(condition):
                continue
            words = set(re.findall(r"[\w-]+", condition))
            for reason, fitting, meant in _REASONS:
                harmless = bool(_LISTED.search(condition)) and words & {*_HARMLESS}
                if reason.search(line.note) and (harmless or not words & set(fitting)):
                    case.add(
                        RULE.found(
                            f"a line of {procedure.name} for {condition} stands because of `{line.note}`, "
                            f"which is {meant}",
                            line.place("when"),
                            address=procedure.name,
                            others=[Label(line.place("note"), "the reason")],
                            basis=RULE.basis,
                        )
                    )
                    break


def _lines(procedure: Procedure) -> Iterator[Any]:
    """The lines that have both a condition and a reason."""
    lines: tuple[Any, ...] = (
        *procedure.limits,
        *procedure.treatments,
        *procedure.forbids,
        *procedure.allows,
        *procedure.requires,
        *procedure.prefers,
    )
    for line in lines:
        if line.sound and line.when is not None and isinstance(line.note, str):
            yield line
