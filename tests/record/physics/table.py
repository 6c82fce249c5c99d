"""The confusion table: kinds of record against what was said of them."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable

from tests.record.physics.cases import MUST, OPEN
from tests.record.physics.grading import Graded


def counts(graded: list[Graded]) -> dict[str, tuple[int, int]]:
    """name -> (how many, out of how many)."""
    must_not = [one for one in graded if one.may in ("not met", "not shown")]
    must = [one for one in graded if one.may == MUST]
    faulty = [one for one in graded if one.kind.words]
    sound = [one for one in graded if not (one.kind.words or one.at or one.zone)]
    return {
        "false met": (sum(one.false_met for one in graded), len(must_not)),
        "truly met and shown, accepted": (sum(one.met for one in must), len(must)),
        "faults named right": (sum(one.named_right for one in faulty), len(faulty)),
        "fault found where none is": (sum(bool(one.alarms) for one in sound), len(sound)),
        "healthy thermocouple blamed beside a fault": (
            sum(bool(one.blamed) for one in faulty),
            len(faulty),
        ),
        "undecided, not graded": (sum(one.may == OPEN for one in graded), len(graded)),
    }


def write(graded: list[Graded]) -> str:
    """The table, and a line for each record that was judged or named wrongly."""
    lines = [f"- {name}: {n} of {of}" for name, (n, of) in counts(graded).items()]
    groups: dict[str, list[Graded]] = defaultdict(list)
    for one in graded:
        groups[one.kind.name].append(one)
    lines += [
        "",
        "| kind | records | may be said | said | named right | named as |",
        "|---|---|---|---|---|---|",
    ]
    for name, ones in groups.items():
        named = Counter(
            fault for one in ones for fault in sorted({f.kind for f in one.answer.named})
        )
        right = f"{sum(one.named_right for one in ones)}" if ones[0].kind.words else "-"
        lines.append(
            f"| {name} | {len(ones)} | {_list(one.may for one in ones)} "
            f"| {_list(one.answer.overall for one in ones)} | {right} "
            f"| {', '.join(f'{n} x{k}' for n, k in named.most_common()) or 'nothing'} |"
        )
    for title, chosen in (
        ("False met", [one for one in graded if one.false_met]),
        ("Truly met and shown, refused", [one for one in graded if one.refused]),
        (
            "Fault not named right",
            [one for one in graded if one.kind.words and not one.named_right],
        ),
        ("Healthy thermocouples blamed", [one for one in graded if one.blamed]),
    ):
        lines += ["", f"## {title}: {len(chosen)}", ""]
        same: dict[str, list[Graded]] = defaultdict(list)
        for one in chosen:
            same[one.kind.name].append(one)
        for name, ones in same.items():
            lines.append(f"- {name}")
            lines += [f"  - {_line(one, title)}" for one in ones]
    return "\n".join(lines) + "\n"


def _list(items: Iterable[str]) -> str:
    return ", ".join(f"{item} x{n}" if n > 1 else item for item, n in Counter(items).most_common())


def _line(one: Graded, title: str) -> str:
    at = one.at or ((f"zone {one.zone}",) if one.zone else ())
    where = f", on {', '.join(at)}" if 0 < len(at) < 4 else ""
    named = ", ".join(str(fault) for fault in one.answer.named)
    why = f"truly {one.truth}" + (f" ({', '.join(one.broken)})" if one.broken else "")
    failed = "; ".join(one.answer.failed[:2]) if title.startswith("Truly") else ""
    blamed = f"; blamed: {', '.join(one.blamed)}" if title.startswith("Healthy") else ""
    set_to = one.settings
    file = f"every {set_to.interval:g} s, in {set_to.digits:g} {set_to.unit}, noise "
    file += f"{set_to.noise:.2f} K"
    return (
        f"record {one.number}, {one.joint}{where} ({file}): {why}, may be said: {one.may}; said: "
        f"{one.answer.overall}; faults found: {named or 'none'}{blamed}"
        + (f"; {failed}" if failed else "")
    )
