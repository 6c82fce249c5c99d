"""Reads texts of the language for the tests of its vocabulary."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.findings import Finding, Report, ordered
from hts.base.text import Source
from hts.language.vocabulary.hidden import hidden_characters
from hts.language.vocabulary.reader import Reader
from hts.language.vocabulary.spec import File
from hts.syntax import parse

#: Words of a place -> the lines around it, up to where the text under test stands.
PLACES = {
    "file": "spec 1\n{}\n",
    "job": 'spec 1\njob "A" {{\nnumber "1"\nrevision A on 2026-10-02\ngoverned by local-heating\n'
    'signed {{ prepared "B" }}\n{}\n}}\n',
    "material": "spec 1\nmaterial m {{\n{}\n}}\n",
    "joint": "spec 1\njoint W1 {{\nkind girth butt\n{}\n}}\n",
    "heating": "spec 1\njoint W1 {{\nkind girth butt\nheating by resistance {{\nsoak band by rule\n"
    "heated band by rule\ngradient band by rule\nzone all from 12:00 to 6:00\n{}\n"
    "}}\n}}\n",
    "thermocouples": "spec 1\njoint W1 {{\nkind girth butt\nthermocouples type K class 1 {{\n"
    "colours IEC 60584-3\n{}\n}}\n}}\n",
    "cycle": "spec 1\ncycle c for W1 {{\n{}\n}}\n",
    "procedure": "spec 1\nprocedure P {{\n{}\n}}\n",
    "recorder": "spec 1\nrecorder R1 {{\nchannels 6 type K range 0 .. 1200 degC\ninterval 60 s\n"
    "error +/- 1.5 degC\n{}\n}}\n",
    "waive": 'spec 1\nwaive a-rule on {} {{\nreason "A"\nby "B"\nuntil 2027-01-31\n}}\n',
}


class Told(NamedTuple):
    """What a finding tells, as a person reads it."""

    name: str
    at: str
    message: str
    help: str


def read(text: str) -> tuple[File, list[Told]]:
    """A text as entries, and all that is told about it, in order."""
    report = Report()
    source = Source(text, "text.hts")
    hidden_characters(source, report)
    file = Reader(source, report, File).read(parse(source, report).entries)
    assert isinstance(file, File)
    return file, [told(finding) for finding in ordered(report.findings)]


def told(finding: Finding) -> Told:
    span = finding.at.span
    at = span.source.text[span.start : span.end]
    return Told(finding.kind.name, at, finding.message, finding.help)


def inside(place: str, text: str) -> str:
    """The text in the smallest block of its place."""
    return PLACES[place].format(text)
