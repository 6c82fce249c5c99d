"""Nothing of the language is stated in vain: every field has a reader that judges or works with it,
and a place where a person sees it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fnmatch import fnmatchcase
from itertools import islice
from pathlib import Path

import numpy as np
import pytest

from hts.checking.checker.run import check_spec
from hts.checking.govern.case import Case
from hts.checking.govern.facts import facts_by_side
from hts.checking.rules.catalogue import rules
from hts.checking.rules.examples import changed
from hts.checking.rules.rule import Bad, Good
from hts.generate.smallest import saying
from hts.job.compiler import CannotCompile, compile_spec
from hts.job.compiler.assumed import INTERVAL
from hts.job.explain.books import every
from hts.job.explain.books import text as described
from hts.job.outputs.job_files import files
from hts.language.model import Spec
from hts.language.vocabulary.declare import BLOCK, Entry, Field
from hts.language.vocabulary.paths import title, walk
from hts.language.vocabulary.procedure import LimitLine
from hts.language.vocabulary.spec import File
from hts.limits.facts import FACTS
from hts.limits.limit import Limit
from hts.paper.packet.groups import subjects
from hts.paper.packet.packet_files import pages
from hts.record import results
from hts.record.judging import judge
from tests.coarse import coarse
from tests.language.reading import DATA, Readers, noted
from tests.record.judging import made
from tests.record.test_results import GOOD as FOUND_AFTERWARDS
from tests.texts import examples, spec_of

ROOT = Path(__file__).resolve().parents[2]
LIST = ROOT / "specs/turnaround-list.hts"
TODAY = "2026-11-25"

#: Who works with what is said, or judges it.
WORK = (
    "hts.checking.checker", "hts.checking.govern", "hts.checking.rules", "hts.limits",
    "hts.language.model", "hts.language.rows", "hts.job.compiler", "hts.job.demands",
    "hts.predict", "hts.record.judging", "hts.record.plan", "hts.record.results",
)  # fmt: skip
#: Through whom a person sees it: what is compiled goes on paper, and what is judged into findings.
SHOW = (
    "hts.job.compiler", "hts.job.demands", "hts.job.outputs", "hts.paper", "hts.record.handover",
    "hts.checking.govern", "hts.language.model", "hts.language.rows", "hts.record.results",
)  # fmt: skip

#: Whoever puts a demand to any field reads it without knowing what it means: that is no use of it.
_GENERIC = ("hts.checking.govern.instances", "hts.checking.govern.meets")
#: Where data are read in: that is no use of them.
_HOMES = ("hts.limits.books", "hts.limits.limit", "hts.science.tables")
#: Columns of the data that nothing uses, and why.
UNREAD_DATA: dict[str, str] = {
    "Book.editions": "a wrong edition is told from the data as they lie there",
    "Limit.dissimilar": "told with the reason of a value, in hts.job.explain",
    "Grade.ac1_range": "the estimate from the analysis is nearer than the range of all heats",
    "Grade.aliases": "names a grade is looked up by, in the table itself",
    "Grade.classes": "names a grade is looked up by, in the table itself",
    "Grade.note": "for whoever edits the table",
    "Grade.product": "for whoever edits the table",
    "Grade.standard": "each figure of the grade carries it",
}
WORDS = "words, days and numbers for people: printed, and judged by whoever reads them"
FORMS = "done by hand, and signed on the forms of the packet"
EQUIPMENT = "judged; the paper names the instrument, its certificate is with it"
#: Fields that no reader judges or works with, and why.
UNREAD: dict[str, str] = {
    "job.area": WORDS,
    "job.plant unit": WORDS,
    "job.order": WORDS,
    "job.reference.*": WORDS,
    "job.open point.*": WORDS,
    "job.crew.people": WORDS,
    "job.history.history line.*": WORDS,
    "joint.already heated.what": WORDS,
    "cycle.not required.reason": WORDS,
    "cycle.*.agreed": WORDS,
    "controller.time base": "how a program is keyed in; printed",
    "recorder.chart speed": "of paper charts; printed",
    "recorder.traces told by": "how traces look; printed",
    "power source.current": "printed; the power is what is judged",
    "joint.heating.heater.*": "drawn and listed; power, count and length are judged",
    "procedure.excursion.in total": "the limit is one on the time in total, said or not",
    "procedure.rate excursion.each": "the limit is one on each time, said or not",
}
#: Fields that no paper shows, and why.
UNSEEN: dict[str, str] = {
    "waive.*": "told with the finding a waiver hides, and printed from there",
    "* heat.* point.about": "serves demands; the words of the point are printed",
    "* heat.check.about": "serves the rules; the words of the check are printed",
    "procedure.excursion.in total": "printed with the limit it makes",
    "procedure.rate excursion.each": "printed with the limit it makes",
    "cycle.not required.*": "told by the findings on the claim",
    "cycle.*.agreed": "told by the reason of the value it changes",
}


@pytest.fixture(scope="module")
def readers() -> Readers:
    """Who reads what while the good jobs are checked, compiled, printed, and one of them judged;
    and where that is nobody, while examples of the rules that say it are checked. To note what is
    read takes long."""
    loader = examples()
    with coarse(), noted() as found:
        for folder in ("specs", "tests/specs/jobs", "tests/specs/right"):
            # The long list of welds says nothing that the short one does not.
            for path in sorted({*(ROOT / folder).glob("*.hts")} - {LIST}):
                _worked(Spec(loader.read(str(path)), loader))
        header = spec_of((ROOT / "specs/p22-header.hts").read_text("utf-8")).joints["W12"]
        results.verdicts(header, spec_of(FOUND_AFTERWARDS).file.results)
        for book in every():
            described(book)
        plan = made.file_plan("p22-header.hts")
        times = np.arange(0.0, 11 * made.HOUR, made.MINUTE)
        courses = {tag: made.course(made.GOOD, times) for tag in ("T1", "T2", "T3", "T4", "T5")}
        judge(made.record(courses, times), plan)
    for rooms, excused in EACH:
        unread = {p for p in _unexcused(found, rooms, excused) if ".predict " not in p}
        _note_what_says(found, unread, rooms)
    return found


def _note_what_says(readers: Readers, paths: set[str], rooms: tuple[str, ...]) -> None:
    """While the least that says each of these is worked with, and, until somebody in the rooms
    reads it, the examples that say it."""
    fields = [(chain, field) for path, chain, field in walk(File) if path in paths]
    with coarse(), noted() as found:
        for chain, field in fields:
            _worked(spec_of(saying(chain, field)))
        _join(readers, found)
        done: set[int] = set()
        for chain, field in fields:
            for number, example in enumerate(_examples()):
                if number in done or not _says(example, chain, field):
                    continue
                if _read(readers, chain[-1], field.name, rooms):
                    break
                done.add(number)
                _checked(example)
                _join(readers, found)


def _says(example: Bad | Good, chain: tuple[type[Entry], ...], field: Field) -> bool:
    """Perhaps: the entry, or one that is named by its only word, stands in what was changed."""
    added = " ".join(new for _, new in example.changes)
    return (title(chain[-1]) if len(chain) > 2 else " ".join(field.words)) in added


def _examples() -> Iterator[Bad | Good]:
    for rule in rules():
        yield from (*rule.bad, *rule.good)


def _checked(example: Bad | Good) -> None:
    check_spec(spec_of(changed(example.base, example.changes)), example.today)


def _worked(spec: Spec) -> None:
    check_spec(spec, TODAY)
    try:
        job = compile_spec(spec, INTERVAL)
    except CannotCompile:
        return
    files(job)
    # The sheets of a list of welds are alike.
    for subject in islice(subjects(job), 4):
        pages(subject)


def _read(readers: Readers, cls: type[Entry], name: str, rooms: tuple[str, ...]) -> bool:
    """Whether a module of these rooms reads the field, of this class or one it shares it with."""
    base = LimitLine if issubclass(cls, LimitLine) else _declaring(cls, name)
    modules = {
        m for (c, n), found in readers.items() if n == name and issubclass(c, base) for m in found
    }
    return any(module.startswith(rooms) for module in modules - {*_GENERIC})


def _declaring(cls: type[Entry], name: str) -> type[Entry]:
    return next(c for c in reversed(cls.__mro__) if name in getattr(c, "fields", {}))


#: Of each of the two: the rooms a field is read in, and what is excused.
EACH = ((WORK, UNREAD), (SHOW, UNSEEN))


def test_every_field(readers: Readers) -> None:
    """Without what is predicted, which takes long."""
    for each in EACH:
        assert [path for path in _unexcused(readers, *each) if ".predict " not in path] == []


@pytest.mark.long
def test_every_excuse_and_what_is_predicted(readers: Readers) -> None:
    _note_what_says(readers, {path for path, _, _ in walk(File)}, ())
    _note_all_examples(readers)
    for each in EACH:
        assert _unexcused(readers, *each) == []
    for rooms, excused in EACH:
        missing = _missing(readers, rooms)
        idle = [e for e in excused if not any(fnmatchcase(p, e) for p in missing)]
        assert idle == [], f"read by now, take off the list: {idle}"


def _unexcused(readers: Readers, rooms: tuple[str, ...], excused: dict[str, str]) -> list[str]:
    return [
        path
        for path in _missing(readers, rooms)
        if not any(fnmatchcase(path, each) for each in excused)
    ]


def _note_all_examples(readers: Readers) -> None:
    with noted() as found:
        for example in _examples():
            _checked(example)
    _join(readers, found)


def _join(readers: Readers, found: Readers) -> None:
    for field, modules in found.items():
        readers[field] |= modules


def _missing(readers: Readers, rooms: tuple[str, ...]) -> list[str]:
    return [
        path
        for path, chain, field in walk(File)
        if field.form != BLOCK and not _read(readers, chain[-1], field.name, rooms)
    ]


def test_every_column_of_the_data(readers: Readers) -> None:
    unread = [
        f"{cls.__name__}.{name}"
        for cls in DATA
        for name in cls.__slots__  # type: ignore[attr-defined]
        if not name.startswith("_")
        and not any(
            module.startswith("hts.")
            and not module.startswith(_HOMES)
            and not (cls is Limit and module.startswith("hts.job.explain"))
            for module in readers.get((cls, name), ())
        )
    ]
    left = [name for name in unread if name not in UNREAD_DATA]
    assert left == [], "\n".join(left)
    assert [name for name in UNREAD_DATA if name not in unread] == [], "read by now"


def test_every_fact_is_put_and_can_be_named() -> None:
    """What a joint's facts are called is what formulas may say, no more and no less."""
    put = set()
    for path in [*(ROOT / "hts/checking/govern").glob("*.py"), *(ROOT / "hts/limits").glob("*.py")]:
        if path != ROOT / "hts/limits/facts.py":
            put |= set(re.findall(r'"([a-z_]+)"', path.read_text("utf-8")))
    # By the name of the side: run_wall, branch_wall.
    assert [name for name in FACTS if name not in put and not name.endswith("_wall")] == []
    loader = examples()
    for path in sorted((ROOT / "specs").glob("*.hts")):
        case = Case(Spec(loader.read(str(path)), loader), TODAY)
        for joint in case.joints():
            for treatment in [*case.treatments(joint)] or [None]:
                for facts in facts_by_side(joint, treatment).values():
                    assert set(facts) <= set(FACTS)
