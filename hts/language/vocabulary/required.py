"""What an entry cannot do without, and what is said where it is missing."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Finding, Label, Report
from hts.language.vocabulary.declare import BLOCK, CLAUSE, ENTRY, Entry, Field
from hts.language.vocabulary.mistakes import MISSING_ENTRY, MISSING_VALUE, REVERSED_RANGE

IN_PHRASE = (CLAUSE,)
IN_BLOCK = (ENTRY, BLOCK)


def missing(made: Entry, forms: tuple[str, ...]) -> Iterator[Field]:
    """Fields of the given forms that the entry must say and does not."""
    for field in _required(type(made), forms):
        if not made.says(field.name) and field.name not in made.spared():
            yield field


_REQUIRED: dict[tuple[type[Entry], tuple[str, ...]], tuple[Field, ...]] = {}


def _required(cls: type[Entry], forms: tuple[str, ...]) -> tuple[Field, ...]:
    known = _REQUIRED.get((cls, forms))
    if known is None:
        known = tuple(f for f in cls.fields.values() if f.required and f.form in forms)
        _REQUIRED[cls, forms] = known
    return known


def absence(made: Entry, field: Field, start: int, end: int) -> Finding:
    """The finding about a missing field, which points at ``start`` to ``end``."""
    words = " ".join(field.words)
    about = lower(field.doc)
    at = Label(made.source.span(start, end))
    if field.form == CLAUSE:
        return Finding(
            MISSING_VALUE,
            f"{called(made)} does not say `{words}` ({about})",
            at,
            address=made.address,
            help=f"add it, for example: {field.sample}",
        )
    return Finding(
        MISSING_ENTRY,
        f"{called(made)} has no `{words or about}` ({about})",
        at,
        address=made.address,
        help=f"add, for example: {field.example}" if field.example else "",
    )


def of_the_whole(made: Entry, start: int, end: int) -> Iterator[Finding]:
    """What is wrong with an entry that no part of it is to blame for alone."""
    cls = type(made)
    if cls.one_of and not any(made.says(name) for name in cls.one_of):
        yield _says_none(made, start, end)
    if cls.from_to and all(made.says(name) for name in cls.from_to):
        low, high = (getattr(made, name) for name in cls.from_to)
        if low > high:
            yield Finding(
                REVERSED_RANGE,
                f"{called(made)} says at least {low} and at most {high}: nothing lies between",
                Label(made.source.span(start, end)),
                address=made.address,
                help="write the smaller value behind `at least`",
            )


def _says_none(made: Entry, start: int, end: int) -> Finding:
    """The finding about an entry that says nothing of what it is there for."""
    cls = type(made)
    wanted = [cls.fields[name] for name in cls.one_of]
    words = ", ".join(f"`{' '.join(field.words)}`" for field in wanted)
    says = "says none of" if len(wanted) > 1 else "does not say"
    return Finding(
        MISSING_VALUE,
        f"{called(made)} {says} {words}",
        Label(made.source.span(start, end)),
        address=made.address,
        help=f"add it, for example: {wanted[0].sample}",
    )


def require_laid_over(made: Entry, report: Report) -> None:
    """Reports what an entry begun `like` another lacks, after both have been laid together."""
    if not made.sound:
        return
    lacking = list(missing(made, IN_PHRASE + IN_BLOCK))
    for field in lacking:
        report.add(absence(made, field, made.start, made.end))
    made.sound = not lacking
    for field in type(made).fields.values():
        child = getattr(made, field.name) if field.form == BLOCK and not field.many else None
        if isinstance(child, Entry):
            require_laid_over(child, report)
            made.sound = made.sound and child.sound


def called(made: Entry) -> str:
    """How a message names an entry: `zone top`, or its words alone."""
    words = " ".join(type(made).words)
    name = name_of(made)
    if name is not None:
        return f"{words} {name}".strip()
    return f"`{words}`" if words else type(made).plainly


def name_of(made: Entry) -> str | None:
    """What the entry is called; of several names the first."""
    name = getattr(made, "name", None)
    if isinstance(name, str):
        return name
    names = getattr(made, "names", None)
    return names[0] if names else None


def lower(text: str) -> str:
    """A sentence as part of another one."""
    return text[:1].lower() + text[1:].rstrip(".")
