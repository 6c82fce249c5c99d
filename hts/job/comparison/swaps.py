"""The swap of a failed thermocouple to its declared spare: the shift log is enough for it."""

from __future__ import annotations

from hts.checking.rules.zones import missing_spare
from hts.job.comparison.change import Change, under
from hts.job.comparison.registry import NOTE
from hts.language.model import Spec
from hts.language.model.joint import Joint, Thermocouple

_DUTIES = ("controls", "monitors", "spare for")
_PATH = "joint.thermocouples.thermocouple"


def without_swaps(
    changes: list[Change], old: Spec, new: Spec, joints: list[tuple[str, str]]
) -> list[Change]:
    """The changes, those of a swap as notes."""
    swapped: dict[str, str] = {}
    for before, after in joints:
        swapped |= _swapped(old.joints[before], new.joints[after])
    if not swapped:
        return changes
    return [_noted(change, swapped) for change in changes]


def _swapped(old: Joint, new: Joint) -> dict[str, str]:
    """Addresses of the thermocouples that changed places, on both sides, and why that is safe."""
    found: dict[str, str] = {}
    now = {tc.tag: tc for tc in new.thermocouples}
    for spare in old.thermocouples:
        failed, taken_in = spare.spare_of, now.get(spare.tag)
        if (
            failed is None
            or taken_in is None
            or not _duty(failed)
            or _place(spare) != _place(taken_in)
        ):
            continue
        left = now.get(failed.tag)
        if _duty(taken_in) == _duty(failed) and (left is None or not _duty(left)):
            why = (
                f"{spare.tag} was the declared spare of {failed.tag} and stands where it stood: "
                "safe in the shift log"
            )
            for joint in (old, new):
                found |= dict.fromkeys(
                    (f"{joint.name}/thermocouples/{tag}" for tag in (spare.tag, failed.tag)), why
                )
    return found


def _duty(tc: Thermocouple) -> tuple[str, str]:
    """What it controls or monitors; empty for a spare."""
    if tc.entry.controls is not None:
        return ("controls", tc.entry.controls.name)
    return ("monitors", tc.entry.monitors) if tc.entry.monitors is not None else ()  # type: ignore[return-value]


def _place(tc: Thermocouple) -> tuple[object, ...]:
    entry = tc.entry
    return (
        tc.position,
        entry.arc and entry.arc.value,
        entry.along,
        entry.on_weld,
        entry.offset,
        tc.surface,
    )


def _used_up(change: Change) -> bool:
    """Whether a check finds that the spare, now in use, has no spare of its own."""
    name = missing_spare.RULE.kind.name
    return change.new is not None and change.new.value.startswith(f"{name}:")


def _noted(change: Change, swapped: dict[str, str]) -> Change:
    if change.area == "check" and change.address in swapped and _used_up(change):
        return under(change, NOTE, f"{swapped[change.address]}; no spare is left there")
    whole = change.path == _PATH
    duty = change.path in [f"{_PATH}.{duty}" for duty in _DUTIES]
    address = change.address if whole else change.address.rpartition("/")[0]
    if not (whole or duty) or address not in swapped or change.verdict == NOTE:
        return change
    return under(change, NOTE, swapped[address])
