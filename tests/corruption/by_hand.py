"""`python -m tests.corruption.by_hand`: which slips made by hand a check tells, by file and harm.

The slips of `by_hand.yaml` are what people type, copy or misunderstand, made by readers who had
seen no rule; the systematic ones are those of `changes.py`.
"""

from __future__ import annotations

import argparse
import re
from collections import Counter
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import yaml

from hts.base.findings import ADVICE, Finding
from hts.base.text.yaml_loader import yaml_loader
from hts.checking.checker import check_spec
from hts.language.model import Spec
from tests.corruption.share import JOBS, ROOT, TODAY, Spoiled, loader_of_all, thing_at, users

FILE = Path(__file__).with_name("by_hand.yaml")


class Change(NamedTuple):
    """``old`` becomes ``new`` in a file, where it stands once, or first behind ``after``; a blank
    of ``old`` stands for any number of them."""

    file: str
    old: str
    new: str
    after: str

    def at(self, text: str) -> re.Match[str]:
        """Where it stands in the text of its file. Raises ValueError."""
        pattern = re.compile(" +".join(re.escape(part) for part in re.split(" +", self.old)))
        start = text.find(self.after)
        found = list(pattern.finditer(text, max(start, 0)))
        if start < 0 or not found or (len(found) > 1 and not self.after):
            raise ValueError(f"{self.file}: {len(found)} times: {self.old}")
        return found[0]


class ByHand(NamedTuple):
    """A slip, or what is written otherwise and as right.

    ``excuse``: why no check tells the slip, or why one tells what is right; else empty.
    """

    changes: tuple[Change, ...]
    made_by: str
    hurts: bool
    why: str
    excuse: str

    def __str__(self) -> str:
        first = self.changes[0]
        return f"{first.file}: {first.old.strip()} -> {first.new.strip() or '(left out)'}"


@cache
def _file() -> dict[str, tuple[ByHand, ...]]:
    parts = yaml.load(FILE.read_text(encoding="utf-8"), yaml_loader())  # a safe loader
    reasons = parts.pop("reasons")
    return {
        part: tuple(_by_hand(file, row, reasons) for file, rows in files.items() for row in rows)
        for part, files in parts.items()
    }


def _by_hand(file: str, row: dict[str, Any], reasons: dict[str, str]) -> ByHand:
    return ByHand(
        tuple(
            Change(each.get("file", file), each["old"], each["new"], each.get("after", ""))
            for each in [row, *row.get("and", [])]
        ),
        row["set"],
        row.get("hurts", False),
        row["why"],
        reasons[row["missed"]] if "missed" in row else row.get("told", ""),
    )


def slips() -> tuple[ByHand, ...]:
    """What is wrong, by file."""
    return _file()["slips"]


def right() -> tuple[ByHand, ...]:
    """What is written otherwise and as right, by file."""
    return _file()["right"]


def applied(each: ByHand) -> tuple[dict[Path, str], list[tuple[Path, int]]]:
    """The texts of the files changed, and where in the texts as they lie there. Raises ValueError
    where an old text does not stand there, or more than once."""
    texts: dict[Path, str] = {}
    places = []
    for change in each.changes:
        path = ROOT / change.file
        text = texts[path] if path in texts else _text(path)
        found = change.at(text)
        places.append((path, found.start()))
        texts[path] = text[: found.start()] + change.new + text[found.end() :]
    return texts, places


@cache
def _text(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def told(each: ByHand) -> Finding | None:
    """The first error or warning about it, in the files changed or in a job that uses what is
    changed there; advice is no telling."""
    texts, places = applied(each)
    loader = Spoiled(texts, loader_of_all())
    for path in _looked_at(texts, places):
        spec = Spec(loader.read(str(path)), loader)
        for finding in spec.findings or check_spec(spec, TODAY):
            if finding.severity != ADVICE:
                return finding
    return None


def _looked_at(texts: Iterable[Path], places: Iterable[tuple[Path, int]]) -> list[Path]:
    found = [path for path in texts if path.suffix == ".hts"]
    for path, start in places:
        if path.suffix == ".hts":
            found += users(path, thing_at(path, start))
        else:  # a table or a book
            named = f'"{path.relative_to(ROOT / "specs").as_posix()}"'
            found += [job for job in JOBS if named in _text(job)]
    return list(dict.fromkeys(found))


def main() -> None:
    parser = argparse.ArgumentParser(
        prog="python -m tests.corruption.by_hand", description=__doc__.splitlines()[0]
    )
    parser.add_argument("--spec", action="append", help="only files whose path has this in it")
    parser.add_argument("--missed", action="store_true", help="list each slip that is missed")
    arguments = parser.parse_args()

    def asked(each: ByHand) -> bool:
        return not arguments.spec or any(part in str(each) for part in arguments.spec)

    found = {each: told(each) for each in slips() if asked(each)}
    for head, key in (
        ("file", lambda each: each.changes[0].file),
        ("set", lambda each: each.made_by),
        ("harm", lambda each: "could hurt" if each.hurts else "wrong on paper"),
    ):
        print(_table(head, [(key(each), finding is not None) for each, finding in found.items()]))
    if arguments.missed:
        for each, finding in sorted(found.items(), key=lambda pair: not pair[0].hurts):
            if finding is None:
                print(f"{'HURTS' if each.hurts else 'wrong'} {each}\n    {each.why}")
                print(f"    {each.excuse or 'told no more: it was when this was last written'}")
    for each, finding in found.items():
        if finding is not None and each.excuse:
            print(f"told now, take `missed` off: {each}: {finding.kind.code}")
    for each in right():
        if asked(each) and (finding := told(each)) is not None:
            print(f"right, and told: {each}: {finding.kind.code} {finding.message}")


def _table(head: str, rows: list[tuple[str, bool]]) -> str:
    """How many are told of each kind, the worst first, and of all."""
    total = Counter(kind for kind, _ in rows)
    found = Counter(kind for kind, is_told in rows if is_told)
    order = sorted(total, key=lambda kind: found[kind] / total[kind])
    width = max((len(kind) for kind in total), default=0)
    counts = [(kind, found[kind], total[kind]) for kind in order]
    lines = [f"{head:<{width}}  told      of"]
    for kind, part, whole in [*counts, ("all", found.total(), total.total())]:
        lines.append(f"{kind:<{width}}  {100 * part / max(whole, 1):5.1f} %  {whole:>4}")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    main()
