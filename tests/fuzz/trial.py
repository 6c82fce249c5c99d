"""One trial: a text is checked, and what must hold for every text is looked at."""

from __future__ import annotations

import os
from random import Random

from hts.base.findings import Finding, Report, ordered
from hts.base.text import BYTE_ORDER_MARK, Source
from hts.checking.checker.all_kinds import all_kinds
from hts.checking.checker.check_paths import Results
from hts.checking.checker.run import check_spec
from hts.checking.report import json_report, terminal
from hts.checking.rules.examples import BASES
from hts.generate import ROOT
from hts.language.model import Loader, Spec
from hts.syntax import parse
from tests.fuzz.run import Broken
from tests.fuzz.texts import damaged, grammar_text

DAYS = (None, "2026-11-20", "2031-01-01")
Trial = tuple[str, str, str | None]

SPECS = os.path.join(ROOT, "specs")


def good_texts() -> list[tuple[str, str]]:
    """(path, text) of every good specification: those in specs/ and the bases of the rules."""
    found = [(os.path.join(SPECS, f"base-{name}.hts"), text) for name, text in BASES.items()]
    for folder in (SPECS, os.path.join(SPECS, "library")):
        for name in sorted(os.listdir(folder)) if os.path.isdir(folder) else ():
            if name.endswith(".hts"):
                path = os.path.join(folder, name)
                with open(path, encoding="utf-8", newline="") as file:
                    found.append((path, file.read()))
    return found


def trial_of(seed: int, number: int, good: list[tuple[str, str]]) -> Trial:
    """Path, text and day of a trial; the same numbers give the same trial."""
    random = Random(f"{seed}/{number}")
    day = random.choice(DAYS)
    path, text = random.choice(good)
    if random.random() < 0.25:
        text = grammar_text(random)
        if random.random() < 0.6:
            return path, text, day
    return path, damaged(random, text), day


def try_text(path: str, text: str, today: str | None = None, root: str = ROOT) -> list[Finding]:
    """Checks a text of the repository at `root`. Raises Broken, or whatever the program raised,
    where something is wrong."""
    text = text.removeprefix(BYTE_ORDER_MARK)  # as a file is read
    _try_parse(text)
    first, second = _checked(path, text, today, root), _checked(path, text, today, root)
    _look(first, text)
    told, again = (
        [report.write(each, colour=False) for report in (json_report, terminal)]
        for each in (first, second)
    )
    if told != again:
        raise Broken("two runs differ")
    told[0].encode("utf-8")
    if not told[1].replace("\n", "").replace("\t", "").isprintable():
        raise Broken("the report for people holds characters that steer a terminal")
    return first.findings


def _try_parse(text: str) -> None:
    tree = parse(Source(text, "text.hts"), Report())
    if "".join(tree.pieces()) != text:
        raise Broken("the pieces of the tree are not the text")


def _checked(path: str, text: str, today: str | None, root: str) -> Results:
    loader = Loader(root)
    source = Source(text, loader.name(path), path)
    results = Results()
    results.checked.append(source.name)
    results.findings += check_spec(Spec(source, loader), today)
    return results


def _look(results: Results, text: str) -> None:
    findings = results.findings
    if findings != ordered(findings):
        raise Broken("the findings are out of order")
    kinds = set(all_kinds())
    for finding in findings:
        if finding.kind not in kinds:
            raise Broken(f"an unknown kind of finding: {finding!r}")
        if not finding.message.strip():
            raise Broken(f"a finding without a message: {finding!r}")
        for label in (finding.at, *finding.others):
            span = label.span
            if not 0 <= span.start <= span.end <= len(span.source.text):
                raise Broken(f"a place outside the text: {span.start}..{span.end} of {finding!r}")
        if finding.source.name == results.checked[0] and finding.source.text != text:
            raise Broken(f"a finding about another text: {finding!r}")
