"""What an editor is told at every place of texts that say nearly everything, each thing once."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from hts.base.text import Source
from hts.checking.checker.all_kinds import all_kinds
from hts.checking.govern.case import Case
from hts.checking.rules.examples import BASES
from hts.editor.buffer import Buffer
from hts.editor.completion import completion
from hts.editor.hints import hints
from hts.editor.hover import hover
from hts.editor.look import worked_out
from hts.editor.names import unresolved
from hts.editor.offer import Surroundings
from hts.editor.place import Text
from hts.editor.reasons import Reason
from hts.editor.rename import CannotRename, renameable, renamed
from hts.editor.symbols import Symbol, foldings, selections, symbols
from hts.editor.tokens import tokens
from hts.editor.workspace import Workspace
from tests import told
from tests.rich import texts
from tests.texts import spec_of

KEPT = Path(__file__).with_name("told")
RICH = {
    "pipe-a": texts.PATHS["pipe-a"].read_text("utf-8"),
    **{name: BASES[name] for name in ("branch", "preheat")},
}
KINDS = all_kinds()
RULES = [(kind.name, kind.summary) for kind in KINDS]


@cache
def _opened(name: str, text: str = "") -> tuple[Workspace, Buffer]:
    workspace = Workspace(["/nowhere"], "utf-16")
    return workspace, workspace.open(f"file:///nowhere/{name}.hts", text or RICH[name], 1)


@cache
def _reasons(name: str) -> list[Reason]:
    found = worked_out(Case(spec_of(RICH[name])), lambda: False)
    return [Reason(*each) for each in found["reasons"]]


def _around(workspace: Workspace, buffer: Buffer) -> Surroundings:
    return Surroundings(workspace.names(buffer), rules=lambda: RULES, books=list)


def _sentence(line: str) -> str:
    """What is told, whichever entry it is told of; each word is there by itself."""
    return line if line[:3] == "## " else re.sub(r"`[^`]*`", "#", told.without_figures(line))


def _over_each_word(name: str) -> list[str]:
    """Where a word says what another did already, it is not told again."""
    workspace, buffer = _opened(name)
    names, reasons, said = workspace.names(buffer), _reasons(name), {}
    for place in buffer.placed.places():
        shown = hover(place, names, reasons, KINDS)
        if shown is not None:
            said.setdefault(shown, f"{place.path or place.role} {place.word}")
    return [f"## {where}\n{shown}" for shown, where in said.items()]


def test_what_stands_there() -> None:
    """Of the shortest text what is told, of all a digest."""
    shown = {name: _over_each_word(name) for name in RICH}
    others = "\n".join(f"{name} {told.digest(lines)}" for name, lines in shown.items())
    told.each_once(
        KEPT / "hover.txt", {"preheat": "\n".join(shown["preheat"]), "all": others}, _sentence
    )


def _same(file: str, name: str, lines: list[str]) -> None:
    """Of the shortest text all is kept, of the others a digest."""
    digest = told.digest(lines)
    told.same(KEPT / file, name, "\n".join([*lines, digest]) if name == "preheat" else digest)


@pytest.mark.parametrize("name", RICH)
def test_what_is_offered(name: str) -> None:
    """Before each word of a text, and behind its first letter."""
    workspace, buffer = _opened(name)
    around, lines, whole = _around(workspace, buffer), [], []
    for place in buffer.placed.places():
        for at in (place.span.start, place.span.start + 1):
            found = completion(buffer.placed, at, around)
            whole += map(repr, found)
            lines.append(f"{place.path or place.role}: {', '.join(each.label for each in found)}")
    _same("offers.txt", name, list(dict.fromkeys(lines)))
    told.same(KEPT / "offers.txt", f"{name}, all of each offer", told.digest(whole))


def _midst(name: str, every: int) -> Iterator[tuple[int, str]]:
    """The text as far as it is written, and with the rest of the lines still below it."""
    text = RICH[name]
    for at in range(1, len(text), every):
        yield at, text[:at]
        yield at, text[:at] + "\n" + text[text.find("\n", at) + 1 :]


def test_in_the_midst_of_writing() -> None:
    """Unfinished words and lines, open texts and blocks: digests; what is told looks as above.

    What stands at the cursor lies within the text.
    """
    told_of: dict[str, list[str]] = {}
    for at, text in _midst("pipe-a", 97):
        workspace, buffer = _opened("midst", text)
        found = completion(buffer.placed, at, _around(workspace, buffer))
        names = workspace.names(buffer)
        place = buffer.placed.at(max(0, at - 1))
        told_of.setdefault("offered", []).append(f"{at} {found!r}")
        if place is not None:
            assert 0 <= place.span.start < place.span.end <= len(text)
            about = f"{place.path} {place.role} {place.word} {hover(place, names, (), KINDS)}"
            told_of.setdefault("hover", []).append(about)
        told_of.setdefault("symbols", []).extend(_symbols(symbols(buffer.placed)))
        told_of.setdefault("folds", []).append(f"{foldings(buffer.placed)}")
        told_of.setdefault("selected", []).append(f"{selections(buffer.placed, at)}")
        told_of.setdefault("tokens", []).append(f"{tokens(buffer.placed, names)}")
    lines = [f"{what}: {told.digest(each)}" for what, each in told_of.items()]
    told.same(KEPT / "offers.txt", "in the midst of writing", "\n".join(lines))


def _symbols(found: list[Symbol] | tuple[Symbol, ...], deep: int = 0) -> list[str]:
    lines = []
    for each in found:
        span = f"{each.span[0]}-{each.span[1]}, {each.name_span[0]}-{each.name_span[1]}"
        lines.append(f"{'  ' * deep}{each.kind} {each.name}: {each.detail} ({span})")
        lines += _symbols(each.inner, deep + 1)
    return lines


def test_what_is_drawn_into_the_text() -> None:
    """Hints behind words, entries, folds, colours of words."""
    drawn = {}
    for name, written in RICH.items():
        workspace, buffer = _opened(name)
        text = Text(Source(written, f"{name}.hts"))
        joints = spec_of(written).joints
        lines = [
            f"{written[: hint.offset].rpartition(chr(10))[2].strip()} <{hint.label}> {hint.about}"
            for hint in hints(text, joints, _reasons(name))
        ]
        lines += _symbols(symbols(text))
        lines += [f"fold {start}-{end}" for start, end in foldings(text)]
        lines += [f"round {selections(text, at)}" for at in range(100, len(written), 400)]
        colours: dict[str, list[str]] = {}
        for token in tokens(text, workspace.names(buffer)):
            kind = " ".join((token.kind, *token.modifiers))
            colours.setdefault(kind, []).append(written[token.start : token.end])
        lines += [f"{kind}: {' '.join(dict.fromkeys(words))}" for kind, words in colours.items()]
        drawn[name] = "\n".join(lines)
    told.each_once(KEPT / "drawn.txt", drawn)


#: Joints that are `like` others, thermocouples that stand in for those of another joint, and names
#: in addresses: of all that, something of each.
ALIKE = (
    BASES["butt"]
    + """
joint W13, W14 like W12 {
  cap width  32 mm
  thermocouples type K class 1 {
    T2       controls bottom   at 6:00   on weld channel 2 control channel 2
    T9       monitors weld     at 3:00   on weld channel 9
  }
}

joint W15 like W13 {
  without support
}

procedure P-1 {
  revision  1 on 2026-01-01
}

before heat W13, W12 {
  check  "T2 of W13 looked at" about thermocouple attachment
}

waive zone-gap on W13/thermocouples/T2 {
  because  "invented"
}

waive zone-gap on W12/thermocouples/T2 {
  because  "invented"
}

waive zone-gap on W15/thermocouples/T9 {
  because  "invented"
}

waive zone-gap on W16/heating {
  because  "nobody knows this joint"
}
"""
)


def test_what_each_word_is() -> None:
    """The thing it names and wherever else that is named, its value, entry and field."""
    texts_ = {**RICH, "alike": ALIKE, "list": (texts.PATHS["welds-with-commas"]).read_text("utf-8")}
    lines = []
    for name, text in texts_.items():
        workspace, buffer = _opened(name, text)
        names, each = workspace.names(buffer), []
        for place in buffer.placed.places():
            declared = names.declared_at(place)
            value, field, cls = place.value_span, place.field, place.cls
            each.append(
                f"{place.word}: {place.role} {place.names} {place.address} {place.path} "
                f"{place.quantity} {value and value[1:]} {field and field.name} "
                f"{cls and cls.__name__} {place.block and place.block.__name__}"
            )
            if declared is not None:
                uses = [span[1:] for span in names.uses(declared)]
                each.append(f"  {declared.about} {declared.span[1:]} {declared.joints} {uses}")
        each += [f"nowhere: {span.text} {span[1:]}" for span in unresolved(names)]
        told.write_whole(KEPT / "words.txt", name, each)
        lines.append(f"{name} {told.digest(each)}")
    told.same(KEPT / "words.txt", "what each word is", "\n".join(lines))


@pytest.mark.parametrize("name", ["pipe-a", "alike"])
def test_new_names(name: str) -> None:
    """Each name of a text called `NEW`, or why not; and what is no name."""
    lines = []
    workspace, buffer = _opened(name, ALIKE if name == "alike" else "")
    seen = set()
    for place in buffer.placed.places():
        try:
            target = renameable(workspace, buffer, place)
        except CannotRename as error:
            lines.append(f"{place.role}: {error}")
            continue
        if target.name in seen:
            continue
        seen.add(target.name)
        for new in ("NEW", "T1", "hold", "two words", ""):
            try:
                ((_, _, spans),) = renamed(workspace, buffer, target, new)
            except CannotRename as error:
                lines.append(f"{target.what} {target.name} -> {new!r}: {error}")
            else:
                at = [buffer.position(start)[0] + 1 for start, _ in spans]
                assert {buffer.text[start:end] for start, end in spans} == {target.name}
                lines.append(f"{target.what} {target.name} -> {new!r} in lines {at}")
    lines = list(dict.fromkeys(lines))
    whole = lines if name == "pipe-a" else [told.digest(lines)]
    told.write_whole(KEPT / "names.txt", f"{name} whole", lines)
    told.same(KEPT / "names.txt", name, "\n".join(whole))
