"""Changes somebody approved: a file of JSON, keyed by values.

An approval names the addresses, the kind, both values in their one spelling, and the verdict; so it
holds when lines move, and no longer when the change is another one.

    {"approvals": [
     {"addresses": ["W12/stress-relief/hold-1/for"], "kind": "treatment/hold time",
      "old": "7200 s", "new": "10800 s", "verdict": "re-approve", "by": "Owner's engineer"}
    ]}
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any, NamedTuple

from hts.base.text import BYTE_ORDER_MARK, Source
from hts.job.comparison.change import Change
from hts.job.comparison.compare import Comparison
from hts.job.comparison.registry import VERDICTS, Verdict

Key = tuple[str, str, str | None, str | None, str]
_FIELDS = ("addresses", "kind", "old", "new", "verdict", "by")
_LISTED = "approvals"


class DamagedApprovals(Exception):
    """A file of approvals that cannot be read; the message begins with the place."""


class Approval(NamedTuple):
    """One entry; `old` and `new` are None for what was added or removed. `spec` is the path, from
    the top of the repository, of the only specification it is for; a comparison of many takes no
    other, since another job may have a joint of the same name."""

    addresses: tuple[str, ...]
    kind: str
    old: str | None
    new: str | None
    verdict: str
    by: str
    spec: str = ""

    @property
    def covers(self) -> list[Key]:
        """The changes it is for."""
        return [(a, self.kind, self.old, self.new, self.verdict) for a in self.addresses]

    @property
    def shown(self) -> str:
        values = " -> ".join(value or "(nothing)" for value in (self.old, self.new))
        at = f"{self.spec} " if self.spec else ""
        return f"{at}{', '.join(self.addresses)}: {self.kind}, {values}, by {self.by}"

    def as_json(self) -> dict[str, Any]:
        made = {**self._asdict(), "addresses": list(self.addresses)}
        if not self.spec:
            del made["spec"]
        return made


class Judged:
    """A comparison with the approvals laid over it."""

    def __init__(self, comparison: Comparison, approvals: Iterable[Approval] = ()) -> None:
        self.comparison = comparison
        self._known = {key: approval for approval in approvals for key in approval.covers}
        asked = {_key(change) for change in comparison.changes}
        #: Approvals that approve nothing here.
        self.unused = [a for a in dict.fromkeys(self._known.values()) if not asked & set(a.covers)]

    def approval(self, change: Change) -> Approval | None:
        """The approval a change has."""
        return self._known.get(_key(change))

    @property
    def open(self) -> list[Change]:
        """The changes nobody has approved."""
        return [change for change in self.comparison.changes if self.approval(change) is None]

    @property
    def worst(self) -> Verdict | None:
        """The worst verdict of those; None where there are none."""
        return min((change.verdict for change in self.open), key=VERDICTS.index, default=None)


def read_approvals(text: str, name: str) -> list[Approval]:
    """The approvals of a file. Raises DamagedApprovals."""
    source = Source(text.removeprefix(BYTE_ORDER_MARK), name)
    try:
        document = json.loads(source.text)
    except json.JSONDecodeError as error:
        raise _damaged(source, error.pos, error.msg) from None
    except RecursionError:
        raise _damaged(source, 0, "it is nested too deeply") from None
    except ValueError:
        raise _damaged(source, 0, "a number in it has too many digits") from None
    listed = document.get(_LISTED) if isinstance(document, dict) else None
    if not isinstance(listed, list) or set(document) != {_LISTED}:
        raise _damaged(source, 0, f'expected {{"{_LISTED}": [ … ]}}')
    starts = _starts(source.text)
    return [_approval(entry, source, at) for entry, at in zip(listed, starts, strict=True)]


def written(approvals: Iterable[Approval]) -> str:
    """The file, one approval a line."""
    lines = [json.dumps(each.as_json(), ensure_ascii=False) for each in approvals]
    body = "".join(f" {line},\n" for line in lines).removesuffix(",\n")
    return f'{{"{_LISTED}": [\n{body}\n]}}\n' if lines else f'{{"{_LISTED}": []}}\n'


def approving(changes: Iterable[Change], by: str, spec: str = "") -> list[Approval]:
    """An approval for each of these changes, one for those that differ in their address only."""
    groups: dict[tuple[str, str | None, str | None, str], list[str]] = {}
    for change in changes:
        key = _key(change)
        groups.setdefault(key[1:], []).append(key[0])
    return [
        Approval(tuple(dict.fromkeys(addresses)), kind, old, new, verdict, by, spec)
        for (kind, old, new, verdict), addresses in groups.items()
    ]


def _key(change: Change) -> Key:
    old, new = (side.value if side is not None else None for side in (change.old, change.new))
    return (change.address, f"{change.area}/{change.kind}", old, new, change.verdict)


def _approval(entry: Any, source: Source, at: int) -> Approval:
    if not isinstance(entry, dict) or set(entry) - {"spec"} != set(_FIELDS):
        raise _damaged(source, at, f"an approval has the keys {', '.join(_FIELDS)}, and spec")
    addresses = entry["addresses"]
    if not isinstance(addresses, list) or not all(isinstance(a, str) for a in addresses):
        raise _damaged(source, at, "`addresses` is a list of texts")
    for field in ("old", "new"):
        if entry[field] is not None and not isinstance(entry[field], str):
            raise _damaged(source, at, f"`{field}` is a text or null")
    for field in ("kind", "verdict", "by"):
        if not isinstance(entry[field], str) or not entry[field].strip():
            raise _damaged(source, at, f"`{field}` is a text")
    spec = entry.get("spec", "")
    if not isinstance(spec, str):
        raise _damaged(source, at, "`spec` is a path")
    if entry["verdict"] not in VERDICTS:
        raise _damaged(source, at, f"`verdict` is one of {', '.join(VERDICTS)}")
    values = {field: entry[field] for field in _FIELDS[1:]}
    return Approval(addresses=tuple(addresses), spec=spec, **values)


def _starts(text: str) -> list[int]:
    """Where each entry of the list begins; the text is known to be well formed."""
    decoder = json.JSONDecoder()
    at = _past(text, text.index("[") + 1)
    found: list[int] = []
    while text[at] != "]":
        found.append(at)
        at = _past(text, decoder.raw_decode(text, at)[1])
    return found


def _past(text: str, at: int) -> int:
    """Past what may stand between two entries."""
    while text[at] in " \t\r\n,":
        at += 1
    return at


def _damaged(source: Source, at: int, cause: str) -> DamagedApprovals:
    line, column = source.position(at)
    return DamagedApprovals(f"{source.name}:{line}:{column}: {cause}")
