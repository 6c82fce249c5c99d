"""All that governs texts that say nearly everything, line for line: facts, limits, values by rule,
demands of procedures."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from pathlib import Path

from hts.base.text import Source
from hts.checking.govern import demanded
from hts.checking.govern.case import Case
from hts.checking.rules.examples import BASES
from hts.language.model import Spec
from tests import told
from tests.checking.govern.changed import changed_lines, changed_texts, some
from tests.checking.govern.governs import all_told, limits_told, outcomes_told
from tests.checking.govern.nearby import told_of_lines, told_of_text
from tests.rich import texts
from tests.specs.test_requirement_kinds import JOBS, ROOT, ROWS, _under
from tests.texts import examples

KEPT = Path(__file__).with_name("told")


def _governs(name: str) -> str:
    return "\n".join(dict.fromkeys(all_told(Case(texts.spec(name), "2026-11-20"))))


def test_all_that_governs() -> None:
    told.each_once(KEPT / "governs.txt", {name: _governs(name) for name in texts.NAMES})


def test_every_kind_of_requirement() -> None:
    """What comes of each line, and what it limits, where it is broken; as a digest where it is
    met, for which tests.specs asks."""
    met = [line for job in JOBS for line in _kinds(job, "met").splitlines()]
    told.same(KEPT / "kinds.txt", "met", told.digest(met))
    for job in JOBS:
        told.same(KEPT / "kinds.txt", job, _kinds(job, "broken"))


def _turned(words: Mapping[str, str]) -> Callable[[str], str]:
    """Each of these words for the other."""
    found = re.compile(rf"\b({'|'.join(words)})\b")
    return lambda line: found.sub(lambda word: words[word[0]], line)


def _times(factor: float) -> Callable[[str], str]:
    return lambda line: re.sub(
        r"(?<![\w.:/-])\d+(?:\.\d+)?(?= [^\d\s])", lambda n: f"{float(n[0]) * factor:g}", line
    )


#: What becomes of every line that is met, so that most are met no longer, or for another reason.
_OTHERS = {
    "twice": _times(2),
    "half": _times(0.5),
    "forbidden": _turned({"requires": "forbids", "forbids": "requires"}),
    "most for least": _turned({"least": "most", "most": "least"}),
    "elsewhere": _turned({"weld": "soak edge", "12:00": "1:00", "6:00": "7:30", "each": "all"}),
}


def test_every_kind_of_requirement_otherwise() -> None:
    for name, change in _OTHERS.items():
        lines = [line for job in JOBS for line in _kinds(job, "met", change).splitlines()]
        told.write_whole(KEPT / "kinds.txt", f"{name} line by line", lines)
        told.same(KEPT / "kinds.txt", name, told.digest(lines))


def test_every_kind_of_requirement_with_one_fact_changed() -> None:
    """What comes of them, and what they limit; of each ten changes two."""
    for job in JOBS:
        lines = some(changed_lines(job), 5)
        told_of = [
            f"{line}: {each}"
            for line, found in zip(lines, told_of_lines(job, lines), strict=True)
            for each in found
        ]
        told.write_whole(KEPT / "kinds.txt", f"{job} changed", told_of)
        told.same(KEPT / "kinds.txt", f"{job}, changed", told.digest(told_of))


def test_all_that_governs_with_one_fact_changed() -> None:
    """Of each two hundred changes of the bases one."""
    for base in BASES:
        places = some(changed_texts(base), 200)
        lines = [
            line for place in places for line in (*map(str, place.edits), *told_of_text(place))
        ]
        told.write_whole(KEPT / "governs.txt", f"{base} changed", lines)
        told.same(KEPT / "changed.txt", base, told.digest(lines))


def _kinds(job: str, form: str, change: Callable[[str], str] = str) -> str:
    lines = [(f"K-{n}", change(getattr(row, form))) for n, row in enumerate(ROWS) if row.job == job]
    path = str(ROOT / job)
    case = Case(Spec(Source(_under(job, lines), job, path), examples()))
    found: list[str] = []
    for joint in case.joints():
        found += outcomes_told(demanded.of_joint(case, joint))
        for treatment in (None, *case.treatments(joint)):
            found += [line for line in limits_told(case.limits(joint, treatment)) if "K-" in line]
    found += outcomes_told(demanded.of_job(case))
    return "\n".join(dict.fromkeys(found))
