"""Every entry a job can state can be demanded: a job that says it passes, one that does not, or
says something else, is found. Nothing is listed here: the walk is over the whole vocabulary."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from hts.checking.govern import demanded, putting
from hts.checking.govern.case import Case
from hts.checking.govern.instances import Root, roots
from hts.checking.govern.sources import of_procedure
from hts.generate.smallest import saying
from hts.language.model import Spec
from hts.language.vocabulary.declare import BLOCK, FLAG, VALUE, Entry, Field
from hts.language.vocabulary.demanded import ROOTS, compared
from hts.language.vocabulary.paths import title, walk
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.types import Choice, ElementShare, Joints, Processes, Text
from tests.texts import examples, spec_of

ROOT = Path(__file__).resolve().parents[3]
Chain = tuple[type[Entry], ...]
#: By what they are of: hundreds of places, each soon tried.
PLACES: dict[str, list[tuple[str, Chain, Field]]] = {}
for _path, _chain, _field in walk(File):
    # Which joints an entry is for is the job's to say.
    _root = _chain[1] if len(_chain) > 1 else _field.entry
    if _root in ROOTS and not isinstance(_field.type, Joints):
        PLACES.setdefault(_path.split(".")[0], []).append((_path, _chain, _field))


def _demand(chain: Chain, field: Field, words: str | None = None) -> str:
    """The field as a demand names it: all the words that lead to it, and what it says."""
    outer = [title(cls) for cls in chain[1:]]
    if field.form == BLOCK:
        assert field.entry is not None
        return " ".join([*outer, title(field.entry)])
    if words is None:
        words = field.example if field.form == "entry" else field.sample
    if isinstance(field.type, ElementShare):
        words = f"{field.example.split(',')[0]}"
    return " ".join([*outer, words])


def _verdict(text: str, line: str, monkeypatch: pytest.MonkeyPatch) -> str:
    """What comes of one line of a procedure put to all the roots of a file, without a joint."""
    spec = spec_of(f"{text}\nprocedure X-1 {{\n  {line}\n}}\n")
    told = [f.message for f in spec.findings if f.address.startswith("X-1")]
    assert told == [], told

    def of_file(spec: Spec, joint: object, cls: type[Entry]) -> list[Root]:
        field = next(f for f in File.fields.values() if f.entry is cls)
        found = getattr(spec.file, field.name)
        listed = found if isinstance(found, list | tuple) else [found]
        return [Root(entry) for entry in listed if entry is not None]

    monkeypatch.setattr(putting, "roots", of_file)
    case = Case(spec)
    authority = of_procedure(spec.file.procedures[0])
    monkeypatch.setattr(Case, "authorities", [authority])
    [(authority, [put])] = demanded._lines(case)
    assert put.what is not None
    at = put.place()
    asked = putting.Putting(case, authority, put.what, None, [{}], at)
    found = asked.forbidden(put, authority) if line.startswith("forbids") else asked.required()
    return "nothing" if found is None else found[0]


def _others(field: Field) -> Iterator[str]:
    """The field with another value than that of its sample."""
    words = " ".join(field.words)
    if isinstance(field.type, Choice):
        for choice in field.type.choices:
            if choice != field.type.example and choice not in field.sample:
                yield f"{words} {choice}"
                return
    elif isinstance(field.type, Processes):
        yield f'{words} "ESW"'
    elif isinstance(field.type, Text):
        yield f'{words} "Quite another thing"'


def test_there_are_places() -> None:
    assert sum(map(len, PLACES.values())) > 700


@pytest.mark.parametrize("of", PLACES)
def test_met_where_it_is_said(of: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for path, chain, field in PLACES[of]:
        text, demand = saying(chain, field), _demand(chain, field)
        assert _verdict(text, f"requires {demand}", monkeypatch) == "met", path
        assert _verdict(text, f"forbids {demand}", monkeypatch) == "not met", path
        assert _verdict(text, f"prefers {demand}", monkeypatch) == "met", path


@pytest.mark.parametrize("of", PLACES)
def test_found_where_it_is_not_said(of: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for path, chain, field in PLACES[of]:
        demand = _demand(chain, field)
        assert _verdict("spec 1", f"requires {demand}", monkeypatch) == "not met", path
        if len(chain) > 1 and not field.required and field.form != VALUE:
            _not_said_by_its_entry(path, chain, field, monkeypatch)


def _not_said_by_its_entry(
    path: str, chain: Chain, field: Field, monkeypatch: pytest.MonkeyPatch
) -> None:
    demand = _demand(chain, field)
    # The entry it stands in is there, and does not say it.
    owner = next(f for f in (*chain[-2].fields.values(),) if chain[-1] in (f.entry, *f.family))
    text = saying(chain[:-1], owner)
    said = (f" {field.sample}", field.example, f" {' '.join(field.words)} ")
    if any(words.strip() and words in text for words in said):
        return
    assert _verdict(text, f"requires {demand}", monkeypatch) == "not met", path
    assert _verdict(text, f"forbids {demand}", monkeypatch) == "met", path


@pytest.mark.parametrize("of", PLACES)
def test_found_where_it_says_something_else(of: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for path, chain, field in PLACES[of]:
        text = saying(chain, field)
        for other in _others(field):
            verdict = _verdict(text, f"requires {_demand(chain, field, other)}", monkeypatch)
            assert verdict == "not met", (path, other)
        _bounds_to_itself(path, chain, field, monkeypatch)


def _bounds_to_itself(
    path: str, chain: Chain, field: Field, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = saying(chain, field)
    kind = compared(field)
    if kind is None or field.form == FLAG or field.type is None:
        return
    words = " ".join(field.words)
    value = field.sample.removeprefix(words).strip()
    if field.form == "entry":
        value = field.example.removeprefix(words).strip()
    for sign in ("at least", "at most"):
        # A bound to itself is met, whichever way it goes.
        if " .. " in value or "+/-" in value or field.stricter or value.startswith("C "):
            break
        if value == "by rule" or any(
            f.words == tuple(sign.split()) for f in chain[-1].labels.get("at", [])
        ):
            break
        bound = value.removesuffix(" downstream").removesuffix(" upstream")
        put = _demand(chain, field, f"{words} {sign} {bound}")
        assert _verdict(text, f"requires {put}", monkeypatch) == "met", path


def test_every_kind_of_entry_is_reached_from_a_joint() -> None:
    loader = examples()
    reached: set[type[Entry]] = set()
    for name in ("p22-header.hts", "p91-pipe.hts", "carbon-steel-butt.hts"):
        spec = Spec(loader.read(str(ROOT / "specs" / name)), loader)
        for joint in spec.joints.values():
            reached |= {cls for cls in ROOTS if roots(spec, joint, cls)}
    assert [cls.__name__ for cls in ROOTS if cls not in reached] == ["Waive"]
