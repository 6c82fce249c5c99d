"""Every entry of the language said once and misread in every way a hand slips, and the rich
specifications as the model has them: what is read and what is told, word for word."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

from hts.base.findings import ordered
from hts.base.quantities import Interval, Quantity
from hts.generate.smallest import saying
from hts.language.vocabulary.declare import Entry, Field
from hts.language.vocabulary.export import export
from hts.language.vocabulary.paths import entries, walk
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.usual import strange
from tests.language.rows import lists, test_traps, test_weld_list
from tests.language.vocabulary.read import Told, read
from tests.rich import texts
from tests.told import each_once, leaves

TOLD = Path(__file__).with_name("told")
#: Where in memory something lies.
_PLACE = re.compile(r" at 0x[0-9a-f]+")
#: Words of one field, cell or slip in what is told of it.
_OF_ONE = re.compile(r"<[^>]*>|'[^']*'|`[^`]*`|\"[^\"]*\"|\d+(?:[.,:/-]\d+)*|[^ |]*…")
#: What is read of a quantity.
_PART_OF_VALUE = re.compile(r"/(written|value|unit)$")
_FIGURE = re.compile(r"\d+(?:\.\d+)?")


def fields() -> Iterator[tuple[str, tuple[type[Entry], ...], Field]]:
    """Each field of each class once, by the first path that leads to it."""
    known = set()
    for path, chain, field in walk(File):
        if (chain[-1], field.name) not in known:
            known.add((chain[-1], field.name))
            yield path, chain, field


def slips(sample: str) -> Iterator[str]:
    """A word too few, too many, misspelt, no figure, a far too great one, no unit."""
    words = sample.split(" ")
    if len(words) > 1:
        yield " ".join(words[:-1])
        yield f"{words[0][:1]}{words[0][2:]} {' '.join(words[1:])}"
    yield f"{sample} xx"
    figure = _FIGURE.search(sample)
    if figure is not None:
        before, after = sample[: figure.start()], sample[figure.end() :]
        yield f"{before}x{after}"
        yield f"{before}{figure[0]}00000{after}"
        yield f"{before}{figure[0]}{re.sub(r'^ ?[A-Za-z/°%]+', '', after)}"


def shown(told: Told) -> str:
    help = told.help if len(told.help) < 120 else f"{told.help[:100]}…"
    return f"{told.name} <{told.at}> {told.message} | {help}".replace("\n", "\\n")


def told_of(
    path: str, chain: tuple[type[Entry], ...], field: Field, known: set[str]
) -> Iterator[str]:
    """How a field is read, and what is told of each of its slips, in lines that each name both.

    What was read of a field before is `known` and not said again.
    """
    text = saying(chain, field)
    file, told = read(text)
    assert told == [], path
    sample = field.sample.split("\n")[0].strip()
    read_of_it = [leaf for leaf in leaves(export(file)) if leaf not in known]
    known.update(read_of_it)
    yield from (f"{path}: {sample} == {leaf}" for leaf in read_of_it)
    for wrong in dict.fromkeys(slips(sample)):
        if wrong == sample or text.count(sample) != 1:
            continue
        file, told = read(text.replace(sample, wrong))
        yield from (f"{path}: {wrong} => {shown(each)}" for each in told)
        for odd in strange(file):
            usual = " or ".join(interval.show() for interval in odd.usual)
            told_odd = f"{odd.value}{odd.what}, usual {usual} {odd.other_unit}"
            yield f"{path}: {wrong} => odd: {told_odd}"
        if not told and not strange(file):
            yield f"{path}: {wrong} => nothing"


def message(line: str) -> str:
    """What is told, whichever field and words it is told of; of what is read, as what."""
    _, sign, told = line.partition(" => ")
    if not sign:
        place, _, value = line.rpartition(": ")
        part = _PART_OF_VALUE.search(place)
        return f"{part[1] if part else ''} {_kind(value)}"
    # What may stand there, and which of it is meant, hangs on the entry.
    return re.sub(
        r"(known here:|the entry can go on with:|did you mean) .*", "", _OF_ONE.sub("#", told)
    )


def _kind(value: str) -> str:
    return "text" if value[:1] == '"' else "figure" if _FIGURE.fullmatch(value) else value


def test_every_field_and_its_slips() -> None:
    """By the type of what a field holds: each message once, beside the first it is told of."""
    texts: dict[str, list[str]] = {}
    known: set[str] = set()
    for path, chain, field in fields():
        kind = "block" if field.type is None else type(field.type).__name__
        texts.setdefault(kind, []).extend(told_of(path, chain, field, known))
    text = {kind: "\n".join(lines) for kind, lines in sorted(texts.items())}
    each_once(TOLD / "fields.txt", text, message, by_text=True)


def held(thing: Any, depth: int = 0) -> Iterator[str]:
    """What a thing of the model holds, attribute by attribute; entries by their words alone."""
    cls = type(thing)
    names = [
        *getattr(cls, "__slots__", ()),
        *getattr(thing, "__dict__", ()),
        *getattr(cls, "_fields", ()),
    ]
    names += [name for name in dir(cls) if isinstance(getattr(cls, name), property)]
    for name in sorted({name for name in names if name[:1] != "_" and name != "joint"}):
        value = getattr(thing, name)
        for number, each in enumerate(
            value if isinstance(value, list | tuple) and not hasattr(value, "_fields") else [value]
        ):
            if each is None or isinstance(each, Entry) or callable(each):
                continue
            place = f"{'  ' * depth}{name}"
            if isinstance(each, Quantity | Interval):
                yield f"{place}: {each!r}"
            elif type(each).__module__.startswith("hts.language.model") and depth < 3:
                yield f"{place} {number}"
                yield from held(each, depth + 1)
            elif isinstance(each, str | int | float) or type(each).__module__.startswith(
                "hts.base.q"
            ):
                yield f"{place}: {each}"


def model(name: str) -> str:
    spec = texts.spec(name)
    lines = [f"{found.kind.code} {found.message}" for found in ordered(spec.findings)]
    for joint in spec.joints.values():
        lines += [f"joint {joint.name}", *held(joint, 1)]
    return "\n".join(lines)


def test_the_model_of_rich_texts() -> None:
    each_once(TOLD / "models.txt", {name: model(name) for name in texts.NAMES})


def attributes(thing: object) -> Iterator[str]:
    """What a type or an entry is declared with, as far as it is plain."""
    names = {name for cls in type(thing).__mro__ for name in getattr(cls, "__slots__", ())}
    for name in sorted({*names, *getattr(thing, "__dict__", ())}):
        value = getattr(thing, name, None)
        if name[:2] != "__" and isinstance(value, str | int | tuple | frozenset | dict | Fraction):
            if value in ("", (), False):
                continue
            plain = sorted(value) if isinstance(value, frozenset) else value
            yield f"{name}={_PLACE.sub('', str(plain))}"


def declared(line: str) -> str:
    """What a field or a type is declared with, whichever example it has; entries each by name."""
    if not line.startswith(" "):
        return line
    return re.sub(r"example=[^;|]*|words=[^;|]*|\| .*|^ +[a-z_0-9]+:", "", line)


def test_what_every_entry_is_declared_with() -> None:
    lines = []
    for cls in entries(File):
        plain = {k: v for k, v in vars(cls).items() if isinstance(v, str | bool | int | tuple)}
        own = [f"{k}={v}" for k, v in sorted(plain.items()) if k[:1] != "_" and "<" not in str(v)]
        lines.append(f"{cls.__name__} {'; '.join(own)}")
        for name, field in cls.fields.items():
            said = [part for part in attributes(field) if not part.startswith(("doc=", "name="))]
            kind = type(field.type).__name__ if field.type is not None else ""
            lines.append(f"  {name}: {'; '.join(said)}")
            if field.type is not None:
                lines.append(
                    f"    {name}: {kind} {'; '.join(attributes(field.type))} | {field.type.hint()}"
                )
    each_once(
        TOLD / "declared.txt",
        {"declared": "\n".join(lines).replace("\\n", " ")},
        declared,
        by_text=True,
    )


def of_any_cell(line: str) -> str:
    return _OF_ONE.sub("#", line)


def test_what_is_told_of_weld_lists() -> None:
    """Each trap of a cell, each mistake of a table and of its columns: message, help and place."""
    asked: dict[str, tuple[str, str]] = {
        f"{trap.head}: {trap.cell}": (lists.job(trap.columns), test_traps._with(trap))
        for trap in (*test_traps.CELLS, *test_traps.RIGHT)
    }
    for (old, new), *_ in test_weld_list.CASES:
        asked[f"{old} -> {new}"] = (lists.job(), lists.table().replace(old, new, 1))
    for welds, message, _ in test_weld_list.TABLES:
        asked[message] = (lists.job(), welds)
    for name, (rows, *_) in test_traps.TABLES.items():
        asked[name] = (lists.job(), test_traps._lines(*rows))
    for line in lists.COLUMNS.splitlines():
        for slip in slips(line.strip()):
            asked[slip] = (
                lists.job().replace(line.strip().replace("{rows}", "3"), slip),
                lists.table(),
            )
    lines = []
    for name, (text, welds) in asked.items():
        lines.append(ascii(name)[1:-1])
        for found in ordered(lists.spec(text, welds).findings):
            place = "{}:{}".format(*found.source.position(found.at.span.start))
            at = ascii(found.at.span.text[:40])[1:-1]
            help = ascii(found.help[:160])[1:-1]
            lines.append(f"  {found.kind.name} {found.source.name}:{place} <{at}> {found.at.text}")
            lines.append(f"    {ascii(found.message)[1:-1]} | {help}")
            for label in found.others:
                place = "{}:{}".format(*label.span.source.position(label.span.start))
                lines.append(f"    also {place} {ascii(label.text)[1:-1]}")
    each_once(TOLD / "weld_lists.txt", {"slips": "\n".join(lines)}, of_any_cell, by_text=True)
