"""Every entry of the language, said, said otherwise, and left out; and every kind of change."""

# The rows of a table are read one by one, whatever their width.
# ruff: noqa: E501

from __future__ import annotations

import re

import pytest

from hts.generate.smallest import saying
from hts.job.comparison.change_kinds import ROWS
from hts.job.comparison.lookup import row_of
from hts.job.comparison.unsaid import UNSAID
from hts.language.vocabulary.declare import BLOCK, FLAG, VALUE, Entry, Field
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.types import Choice, OrRule, Text
from tests.job.comparison.test_registry import paths
from tests.job.comparison.texts import both_ways, changed, named
from tests.sampling import whose_turn

JOINT = (
    "joint W12 {\n  kind girth butt\n  between header-pipe and header-pipe\n"
    "  pipe NPS 12 schedule 80\n  cap width 20 mm\n}\n"
)
#: What says nothing alone: together with no other joint, an offset without channels, a schedule
#: without a size.
ALONE = {"cycle.together", "joint.thermocouples.channel offset", "joint.side.schedule"}
TOLD = frozenset(paths()) - ALONE


def otherwise(field: Field) -> str | None:
    """The sample of a field with another value."""
    kind, sample = field.type, field.sample
    while isinstance(kind, OrRule):
        kind = kind.stated
    if isinstance(kind, Choice):
        said = max((c for c in kind.choices if c in sample), key=len)
        return sample.replace(said, next(c for c in kind.choices if c not in sample))
    if isinstance(kind, Text):
        return re.sub(r'"[^"]*"', '"Something else"', sample, count=1)
    number = re.search(r"\d+", sample)
    if number is None:
        return None
    return f"{sample[: number.start()]}{int(number[0]) + 1}{sample[number.end() :]}"


def pairs(family: str) -> list[tuple[str, Field, str, str]]:
    """Path, field, a small file that says it, and one that says it otherwise or not."""
    made = []
    for path, chain, field in walk(File):
        if path.split(".")[0] != family or path not in TOLD or field.form == BLOCK:
            continue
        text = _whole(chain, field)
        others = [otherwise(field)] if field.form != FLAG else []
        if not field.required and field.form != VALUE:
            others.append("")
        for other in others:
            # The last one: a word or a day may stand further up, too.
            before, found, after = text.rpartition(field.sample)
            if found and other is not None:
                made.append((path, field, text, f"{before}{other}{after}"))
    return made


def _whole(chain: tuple[type[Entry], ...], field: Field) -> str:
    text = saying(chain, field)
    return text if text.count("joint W12 {") else f"{JOINT}{text}"


FAMILIES = sorted({path.split(".")[0] for path in TOLD})


@pytest.mark.parametrize("family", FAMILIES)
def test_seen_and_mirrored(family: str) -> None:
    base = named("p22-header")
    unseen = []
    for path, field, text, other in whose_turn(pairs(family), 3):
        found = both_ways(base, other, text)
        # What a thing is called tells it from others: then the thing itself is another one.
        rows = [row_of(path), *([row_of(path.rpartition(".")[0])] if field.form == VALUE else [])]
        default = path in UNSAID or path.endswith(".hold.target")
        if default and any(each.what == "default" for each in found.representations):
            continue
        if not any(change.row in rows for change in found.changes):
            unseen.append((path, other))
    assert unseen == []


P22, CARBON = "p22-header", "carbon-steel-butt"
QUALIFIED = '"PQR-31" hold 8 h condition below lower critical'
HIGH = ("stress relief\n  recorded", "normalize and temper\n  recorded")
#: Kinds that the small texts cannot show, and a change of a good text that does.
FIRST = "  heat to 705 degC        at most 120 degC/h\n"
HOLD = "  hold 690 .. 720 degC    for 2 h at most 6 h target 705 degC counts from all in range\n"

SHOWN: dict[str, tuple[str, tuple[tuple[str, str], ...]]] = {
    "document/unreadable text": (P22, (("wall                 39.6", "wall                 39,6"),)),
    "document/revision kept": (P22, (("for 2 h at", "for 3 h at"),)),
    "document/weld list revision": ("welds-with-commas", (('-commas.csv" {', '-commas.csv" {\n  revision "C"'),)),
    "document/silent history": (P22, (("for 2 h at", "for 3 h at"), ("revision  B on", "revision  C on"))),
    "heating/band": (P22, (("930 mm", "940 mm"),)),
    "joint/material of a side": (P22, (("between              pipe-p22", "between              header-p11"),)),
    "joint/schedule": (P22, (("schedule 100", "schedule 120"),)),
    "procedure/procedure": ("standing-orders", (("procedure P-07", "procedure P-08"),)),
    "limit/lower limit in force": (CARBON, (("29.1 mm", "31.8 mm"),)),
    "limit/upper limit in force": (CARBON, (("29.1 mm", "31.8 mm"),)),
    "treatment/order of steps": (P22, ((FIRST + HOLD, HOLD + FIRST),)),
    "check/limit or rule": (P22, (("for 2 h at most 6 h", "for 90 min at most 6 h"),)),
    "check/advice": (P22, (("  hold counts             while all in range\n", ""), (" counts from all in range", ""))),
    "limit/value in force": (CARBON, (("29.1 mm", "31.8 mm"),)),
    "limit/demand in words": (CARBON, (("service           amine", "service           water"), ("  follows      P-07\n", ""))),
    "limit/undecided limit": (CARBON, (("at least           95 degC", "at least           by rule"),)),
    "requalification/heat-treatment condition": (P22, (HIGH,)),
    "requalification/heat-treatment condition, undecided": (P22, ((QUALIFIED, '"PQR-31" hold 8 h'),)),
    "requalification/time at temperature": (P22, ((QUALIFIED, f"{QUALIFIED} with toughness"), ("at most 6 h", "at most 9 h"))),
    "requalification/time at temperature, undecided": (P22, (("at most 6 h", "at most 9 h"),)),
    "requalification/thickness above upper critical": (P22, ((QUALIFIED, f"{QUALIFIED} thickness 10 mm"), HIGH)),
    "requalification/thickness above upper critical, undecided": (P22, (HIGH,)),
    "requalification/preheat drop": (P22, (("at least              180", "at least              100"),)),
    "requalification/preheat drop, undecided": (CARBON, (("at least           95 degC", "at least           60 degC"),)),
    "requalification/interpass rise, undecided": (P22, (("at most 315", "at most 325"),)),
    "requalification/hydrogen release": (P22, ((QUALIFIED, f"{QUALIFIED} baked"),)),
    "requalification/hydrogen release, undecided": (P22, ((f"  qualified            {QUALIFIED}", "  # "),)),
    "requalification/hold range of the test piece, undecided": (P22, (("hold 690 .. 720", "hold 660 .. 720"),)),
}  # fmt: skip


@pytest.mark.parametrize("kind", whose_turn(SHOWN))
def test_shown_and_mirrored(kind: str) -> None:
    name, replacements = SHOWN[kind]
    found = changed(named(name), *replacements)
    assert kind in {f"{c.area}/{c.kind}" for c in found.changes}


def test_every_kind_is_shown() -> None:
    by_path = {row_of(path) for family in FAMILIES for path, *_ in pairs(family)}
    shown = {f"{row.area}/{row.kind}" for row in by_path} | set(SHOWN)
    # A file added or removed: tests/job/comparison/test_revisions.py; a book: test_own_books.py.
    elsewhere = {"document/specification", "document/settings", "governing/rows of a book"}
    assert {f"{row.area}/{row.kind}" for row in ROWS} - shown == elsewhere
