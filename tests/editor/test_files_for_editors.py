"""The generated files for editors: the same colours everywhere, and words enough to begin with."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import tomllib
from importlib import import_module
from pathlib import Path
from xml.etree import ElementTree

import pytest

from hts.base.findings import Report
from hts.base.text import Source
from hts.editor.buffer import Lines
from hts.editor.place import Text
from hts.editor.snippets import snippet_of
from hts.editor.tokens import tokens
from hts.generate import ROOT
from hts.generate.textmate import SCOPES
from hts.language.vocabulary.column import LeadsTo
from hts.language.vocabulary.declare import BLOCK, VALUE
from hts.language.vocabulary.demand_text import DemandText
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.reader import Reader
from hts.language.vocabulary.spec import File
from hts.syntax import parse

EDITORS = Path(ROOT, "grammar/editors")
TEXTMATE = Path(__file__).parent / "textmate"
MODULES = TEXTMATE / "node_modules"
TEXTS = sorted(Path(ROOT, "specs").glob("*.hts")) + sorted(
    Path(ROOT, "specs/library").glob("*.hts")
)


@pytest.mark.skipif(shutil.which("node") is None, reason="node is not installed")
@pytest.mark.skipif(
    not MODULES.is_dir(), reason="run: npm ci --prefix tests/editor/textmate (done by .ci/run)"
)
def test_the_grammar_colours_as_our_tokens_do(tmp_path: Path) -> None:
    """Against the tokeniser that editors use (vscode-textmate): every word of all good texts."""
    grammar = EDITORS / "hts.tmLanguage.json"
    texts = [str(path) for path in TEXTS]
    run = subprocess.run(
        ["node", str(TEXTMATE / "tokenise.js"), str(MODULES), str(grammar), *texts],
        capture_output=True,
        text=True,
        check=True,
    )
    coloured = json.loads(run.stdout)
    wrong = []
    for path in texts:
        text = Text(Source(Path(path).read_text("utf-8"), path))
        lines = Lines(text.source.text, "utf-16")
        scopes = {
            (line, column): scope
            for line, start, end, scope in coloured[path]
            for column in range(start, end)
        }
        # In the words of a job a demand says what its own clauses would: no pattern tells those.
        apart = [
            (place.span.start, place.span.end)
            for place in text.places()
            if place.field is not None and isinstance(place.field.type, DemandText | LeadsTo)
        ]
        for token in tokens(text):
            if any(start <= token.start < end for start, end in apart):
                continue
            line, column = lines.position(token.start)
            word = text.source.text[token.start : token.end]
            found = {
                scopes.get((line, column + n)) for n, letter in enumerate(word) if letter > " "
            }
            if found != {SCOPES[token.kind]}:
                wrong.append((path, line + 1, word, token.kind, found))
    assert wrong == []


def test_every_word_of_the_vocabulary_is_in_the_grammar() -> None:
    grammar = (EDITORS / "hts.tmLanguage.json").read_text("utf-8")
    plain = json.dumps(json.loads(grammar), ensure_ascii=False).replace("[ \\\\t]+", " ")
    missing = [path for path, _, field in walk(File) if " ".join(field.words) not in plain]
    assert missing == []


def test_the_patterns_can_be_read() -> None:
    """As far as Python reads the same: no stray bracket, no range the wrong way round."""

    def patterns(rule: object) -> list[str]:
        if isinstance(rule, list):
            return [found for each in rule for found in patterns(each)]
        if not isinstance(rule, dict):
            return []
        own = [rule[key] for key in ("match", "begin", "end") if isinstance(rule.get(key), str)]
        return own + [found for each in rule.values() for found in patterns(each)]

    found = patterns(json.loads((EDITORS / "hts.tmLanguage.json").read_text("utf-8")))
    assert len(found) > 500
    for pattern in set(found):
        re.compile(pattern)
    configuration = json.loads((EDITORS / "language-configuration.json").read_text("utf-8"))
    for pattern in configuration["indentationRules"].values():
        re.compile(pattern)


def filled(snippet: str) -> str:
    """A snippet as it is when nothing is typed over what it proposes."""
    text = re.sub(r"\$\{\d+:((?:\\.|[^}])*)\}", r"\1", snippet)
    return re.sub(r"\\([\\}$])", r"\1", text.replace("$0", ""))


def test_a_snippet_says_what_its_entry_needs() -> None:
    """Each, left as it is proposed, is read without a word, but for names that nothing declares."""
    for path, chain, field in walk(File):
        if field.form == VALUE or chain[-1] is not File or field.form != BLOCK:
            continue
        report = Report()
        text = filled(snippet_of(field))
        if path != "spec":
            text = f"spec 1\n{text}"
        source = Source(f"{text}\n", "snippet")
        Reader(source, report, File).read(parse(source, report).entries)
        assert [finding.message for finding in report.findings] == [], text


def test_snippets_of_the_file_are_those_of_the_vocabulary() -> None:
    snippets = json.loads((EDITORS / "snippets.json").read_text("utf-8"))
    assert snippets["cycle"]["body"][0] == "cycle ${1:stress-relief} for ${2:W12} {"
    assert all(each["description"] for each in snippets.values())


def test_pygments_colours_the_same() -> None:
    pygments = pytest.importorskip("pygments", reason="Pygments is not installed")
    points = tomllib.loads(Path(ROOT, "pyproject.toml").read_text("utf-8"))["project"]
    module, name = points["entry-points"]["pygments.lexers"]["hts"].split(":")
    lexer = getattr(import_module(module), name)(stripnl=False, ensurenl=False)
    for path in TEXTS[:3]:
        text = path.read_text("utf-8")
        found = list(pygments.lex(text, lexer))
        assert "".join(word for _, word in found) == text
        words = {word: str(kind) for kind, word in found}
        assert words["joint"] == "Token.Keyword"
        assert "Token.Keyword.Type" in words.values()


def test_the_picture_shows_what_is_really_told() -> None:
    """`hts.generate` makes it anew; here, that nothing is missing or beside the frame."""
    picture = ElementTree.fromstring((EDITORS / "editor.svg").read_text("utf-8"))
    texts = ["".join(each.itertext()) for each in picture if each.tag.endswith("text")]
    assert any("no zone heats from 7:00 to 7:30" in text for text in texts)
    assert any(text.startswith("= 39.6 mm") for text in texts)
    assert "  hold time at least 99 min" in texts
    width = float(picture.attrib["width"])
    for each in picture:
        end = float(each.attrib.get("x", 0)) + float(
            each.attrib.get("textLength", each.attrib.get("width", 0))
        )
        assert end <= width
