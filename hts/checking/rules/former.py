"""Rules that there were once: settings and waivers that name one are told what took its place."""

from __future__ import annotations

from collections.abc import Iterable

from hts.language.vocabulary.suggest import nearest

#: By code and name, the rule that tells of it now. None of these names is given to another rule.
_DEMAND = "R111 demand-not-met"
FORMER: dict[tuple[str, str], str] = {
    ("C112", "slow-recorder"): _DEMAND,
    ("C132", "calibration-older-than-allowed"): _DEMAND,
    ("R107", "required-place-unmeasured"): _DEMAND,
    ("R108", "guard-band-missing"): _DEMAND,
    ("Z130", "required-monitor-missing"): _DEMAND,
}


def meant(word: str, known: Iterable[str]) -> str:
    """What helps where ``word`` names no rule: what took its place, else the nearest of the known
    names; "" where there is neither."""
    for names, now in FORMER.items():
        if word in names:
            return f"{now} took its place"
    guess = nearest(word, known)
    return f"did you mean {guess}?" if guess else ""
