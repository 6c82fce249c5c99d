"""Every entry of the language, said, said otherwise, and left out."""

from __future__ import annotations

import re

import pytest

from hts.diff.registry import row_of
from hts.generate.smallest import saying
from hts.vocabulary.declare import BLOCK, FLAG, VALUE, Entry, Field
from hts.vocabulary.paths import walk
from hts.vocabulary.spec import File
from hts.vocabulary.types import Choice, OrRule, Text
from tests.diff.test_registry import paths
from tests.diff.texts import both_ways, named

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
    for path, field, text, other in pairs(family):
        found = both_ways(base, other, text)
        # What a thing is called tells it from others: then the thing itself is another one.
        rows = [row_of(path), *([row_of(path.rpartition(".")[0])] if field.form == VALUE else [])]
        if not any(change.row in rows for change in found.changes):
            unseen.append((path, other))
    assert unseen == []
