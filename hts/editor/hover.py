"""What a word means, what it takes, both units of a value, and what the rules ask there."""

from __future__ import annotations

from collections.abc import Sequence

from hts.base.findings import Kind
from hts.editor.names import Names
from hts.editor.phrase import FACT, REFERENCE, WORDS
from hts.editor.place import Place
from hts.editor.reasons import Reason, reasons_at
from hts.language.vocabulary.declare import BLOCK, CLAUSE, ENTRY, Entry, Field
from hts.limits import FACTS, UnknownEdition, book

#: Lines of a reason shown; `hts why` prints them all.
_LINES = 4


def hover(
    place: Place, names: Names, reasons: list[Reason], kinds: Sequence[Kind] = ()
) -> str | None:
    """Markdown about what stands at a place, None where there is nothing to say.

    ``kinds`` are those of the rules, for the name of a rule.
    """
    parts = [*_named(place, names, kinds)]
    if not parts and place.role == FACT and place.word in FACTS:
        fact = FACTS[place.word]
        stated = f"\n\nStated by {fact.stated[1]}." if fact.stated[1] else ""
        parts.append(f"**{place.word}**: {escaped(fact.meaning)}{stated}")
    field = place.field
    if field is not None:
        parts.append(_about(field, place))
    quantity = place.quantity
    if quantity is not None:
        parts.append(f"`{place.word}` = {escaped(quantity.both())}")
    parts += [_reason(reason) for reason in reasons_at(place, reasons)[:2]]
    return "\n\n".join(parts) or None


def escaped(text: str) -> str:
    """Text that Markdown shows as it is: nothing in it is a link, a picture or a tag."""
    for sign in "\\`*_[]<>#|!":
        text = text.replace(sign, "\\" + sign)
    return text


def _named(place: Place, names: Names, kinds: Sequence[Kind]) -> list[str]:
    """About a name: the line that declares it, the rule, or the book."""
    if place.role != REFERENCE:
        return []
    declared = names.declared_at(place)
    if declared is not None:
        line, _ = declared.text.source.position(declared.span.start)
        where = escaped(f"{declared.text.source.name}:{line}")
        head = f"**{declared.what} {escaped(declared.name)}** ({where})"
        return [f"{head}\n\n{_code(declared.about)}"]
    for kind in kinds:
        if place.names == "rule" and place.word in (kind.name, kind.code):
            return [_kind(kind)]
    try:
        made = book(place.word)
    except UnknownEdition as error:
        return [f"**{escaped(place.word)}**: editions {', '.join(error.editions)}"]
    except LookupError:
        return []
    return [f"**{escaped(made.id)}**: {escaped(made.title)}"]


def _kind(kind: Kind) -> str:
    return (
        f"**{kind.name}** ({kind.code}, {kind.severity}): {escaped(kind.summary)}\n\n"
        f"{escaped(kind.why)}\n\n{escaped(kind.fix)}"
    )


def _about(field: Field, place: Place) -> str:
    """What an entry, clause or value is for, what it takes, and an example."""
    words = " ".join(field.words) or field.name.rstrip("_").replace("_", " ")
    lines = [f"**{words}**: {escaped(field.doc)}"]
    if field.type is not None:
        lines.append(f"Takes {escaped(field.type.words)}.")
        choices = getattr(field.type, "choices", ())
        if choices:
            lines.append("One of: " + ", ".join(f"`{choice}`" for choice in choices))
    if field.form == BLOCK and place.role == WORDS and field.entry is not None:
        lines += _says(field.entry)
    if field.required and field.form in (CLAUSE, ENTRY):
        lines.append("Has to be said.")
    if field.example and field.form in (CLAUSE, ENTRY, BLOCK):
        sample = field.example if field.form != CLAUSE else field.sample
        lines.append(f"For example {_inline(sample)}")
    return "\n\n".join(lines)


def _says(cls: type[Entry]) -> list[str]:
    """What an entry must say."""
    needed = [f for f in cls.fields.values() if f.required and f.words]
    if not needed:
        return []
    return ["Has to say: " + ", ".join(f"`{' '.join(field.words)}`" for field in needed)]


def _reason(reason: Reason) -> str:
    lines = reason.text.splitlines()
    shown = "\n".join(line[2:] for line in lines[1 : 1 + _LINES])
    return f"What the rules ask at {escaped(reason.address)}:\n\n{_code(shown)}"


def _code(text: str) -> str:
    """A block of code that no text can end."""
    return "```\n" + text.replace("```", "'''") + "\n```"


def _inline(text: str) -> str:
    return "`" + text.replace("`", "'") + "`"
