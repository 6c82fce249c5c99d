"""The smallest text that says a thing, and the smallest file around it."""

from __future__ import annotations

from hts.language.vocabulary.declare import CLAUSE, FLAG, VALUE, Entry, Field

_OMITTED = "{ … }"


def phrase(cls: type[Entry], also: Field | None = None) -> str:
    """An entry's words, the values and clauses it needs, and one more field of its phrase."""
    parts = [*cls.words]
    for form in (VALUE, CLAUSE):
        parts += [f.sample for f in cls.fields.values() if f.form == form and f.required]
    if cls.one_of and (also is None or also.name not in cls.one_of):
        parts.append(cls.fields[cls.one_of[0]].sample)
    if also is not None and not also.required:
        parts.append(also.sample)
    return " ".join(parts)


def whole(cls: type[Entry], begins: str = "") -> str:
    """An entry with the block it needs: its example, or one that ``begins`` with this phrase."""
    begins = begins or cls.example
    if begins.endswith(_OMITTED):
        return _block(begins.removesuffix(_OMITTED), required(cls))
    if "{" not in begins and cls.needs_block:
        return _block(f"{begins} ", required(cls))
    return begins


def required(cls: type[Entry], without: Field | None = None) -> list[str]:
    """The entries a block cannot do without, but for one."""
    return [
        whole(field.entry) if field.entry is not None else field.sample
        for field in cls.fields.values()
        if field.required and field.form not in (VALUE, CLAUSE) and not _same(field, without)
    ]


def within(chain: tuple[type[Entry], ...], text: str, field: Field) -> str:
    """A file in which ``text`` says ``field`` in the block of the last entry of ``chain``, whose
    first is the file itself."""
    stated = field
    for owner, cls in zip(chain[-2::-1], chain[:0:-1], strict=True):
        begins = cls.example.split("{")[0].strip() or phrase(cls)
        text = _block(f"{begins} ", [*required(cls, stated), text])
        stated = leading_to(owner, cls)
    return "\n".join([*required(chain[0], stated), text]) + "\n"


def saying(chain: tuple[type[Entry], ...], field: Field) -> str:
    """The smallest file in which the last entry of ``chain`` says ``field``."""
    if field.form not in (VALUE, CLAUSE, FLAG):
        return within(chain, whole(field.entry) if field.entry else field.sample, field)
    cls, owner = chain[-1], chain[-2]
    return within(chain[:-1], whole(cls, phrase(cls, field)), leading_to(owner, cls))


def leading_to(cls: type[Entry], inner: type[Entry]) -> Field:
    """The field of an entry that keeps the inner one."""
    return next(
        field for field in cls.fields.values() if field.entry is inner or inner in field.family
    )


def _same(field: Field, other: Field | None) -> bool:
    return other is not None and field.name == other.name


def _block(head: str, lines: list[str]) -> str:
    inner = "\n".join(f"  {line}" for text in lines for line in text.split("\n"))
    return f"{head}{{\n{inner}\n}}" if inner else f"{head}{{ }}"
