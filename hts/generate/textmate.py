"""The TextMate grammar: the words of the language coloured by where they stand.

There is one rule for each class of entry, so that a word is a clause where it is one and a choice
where it is one. What a word is agrees with hts.editor.tokens; a test holds the two together.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from typing import Any

from hts.base.quantities.pattern import spellings
from hts.editor import tokens as words
from hts.editor.choices import choices_of
from hts.editor.phrase import stated
from hts.language.vocabulary.declare import CLAUSE, ENTRY, FLAG, VALUE, Entry, Field
from hts.language.vocabulary.demand_text import DemandText
from hts.language.vocabulary.formulas import Expression
from hts.language.vocabulary.paths import entries, title
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.types import Address, BookEdition, Joints, Name, Size, To, Type

Rule = dict[str, Any]

#: What editors call each kind, in the names most themes have colours for.
SCOPES = {
    words.KEYWORD: "keyword.control.entry.hts",
    words.PROPERTY: "entity.other.attribute-name.clause.hts",
    words.MODIFIER: "storage.modifier.flag.hts",
    words.MEMBER: "constant.language.choice.hts",
    words.VARIABLE: "variable.other.name.hts",
    words.NUMBER: "constant.numeric.hts",
    words.TYPE: "keyword.other.unit.hts",
    words.STRING: "string.quoted.double.hts",
    words.COMMENT: "comment.line.number-sign.hts",
    words.OPERATOR: "keyword.operator.hts",
    words.FUNCTION: "support.function.fact.hts",
}

_BEFORE, _AFTER = r"(?<![\w.-])", r"(?![\w-])(?!\.\w)"
_WORD = r"(?:[^\W\d_]|\d+[^\W\d_])\w*(?:[-.]\w+)*"
_NAME = rf"(?:{_WORD}|\d+)"
_NUMBER = r"-?\d+(?:\.\d+)?(?:[ \t]+\d+/\d+|/\d+)?"
_GAP = r"[ \t]+"
#: An entry ends with its line, or before the brace that ends the block it stands in.
_END = r"(?=\})|$"


def grammar() -> str:
    """The grammar as JSON."""
    repository: dict[str, Rule] = {
        "comment": {"match": r"#.*$", "name": SCOPES[words.COMMENT]},
        "text": {
            "match": r'"(?:[^"\\]|\\.)*(?:"|$)',
            "name": SCOPES[words.STRING],
        },
        # A line that ends with a comma goes on in the next one.
        "goes-on": {
            "begin": r"(,)(?=[ \t]*(?:#.*)?$)",
            "beginCaptures": {"1": {"name": SCOPES[words.OPERATOR]}},
            "end": r"^[ \t]*(?=[^\s#])",
            "patterns": [{"include": "#comment"}],
        },
        "figures": {"patterns": _figures()},
        "by-rule": {
            "match": rf"{_BEFORE}by[ \t]+rule{_AFTER}",
            "name": SCOPES[words.KEYWORD],
        },
        # Facts and functions; inside brackets no comma and no line ends anything.
        "formula": {
            "patterns": [
                {
                    "begin": r"\(",
                    "beginCaptures": {"0": {"name": SCOPES[words.OPERATOR]}},
                    "end": r"(\))|(?=[{}])",
                    "endCaptures": {"1": {"name": SCOPES[words.OPERATOR]}},
                    "patterns": [{"include": "#formula"}, {"include": "#basic"}],
                },
                {"match": rf"{_BEFORE}{_WORD}", "name": SCOPES[words.FUNCTION]},
            ]
        },
        # What is the same in every entry.
        "basic": {
            "patterns": [
                {"include": f"#{name}"}
                for name in ("comment", "goes-on", "text", "figures", "signs")
            ]
        },
        "signs": {
            "match": r"\+/-|±|\.\.|…|<=|>=|!=|[=<>*/+\-^(),]",
            "name": SCOPES[words.OPERATOR],
        },
        "unknown": {
            "begin": r"(?=[^\s#{}])",
            "end": _END,
            "patterns": [{"include": "#basic"}, {"include": "#unknown-block"}],
        },
        "unknown-block": _block([{"include": "#unknown"}]),
    }
    for cls in entries(File):
        repository[_slug(cls)] = {"patterns": _children(cls)}
    document = {
        "name": "hts",
        "scopeName": "source.hts",
        "fileTypes": ["hts"],
        "patterns": [{"include": f"#{_slug(File)}"}],
        "repository": repository,
    }
    return _json(document)


def _json(document: Rule) -> str:
    """JSON with a line for each rule, so that a change of one shows as one."""
    repository = document.pop("repository")
    rules = [
        f"  {json.dumps(name)}: {json.dumps(rule, ensure_ascii=False)}"
        for name, rule in sorted(repository.items())
    ]
    head = json.dumps(document, ensure_ascii=False, indent=1)[:-2]
    return f'{head},\n "repository": {{\n' + ",\n".join(rules) + "\n }\n}\n"


def _figures() -> list[Rule]:
    """Dates, clock positions, quantities and numbers."""
    units = sorted(spellings(), key=lambda unit: (-len(unit), unit))
    small = "|".join(re.escape(unit) for unit in units if not unit[0].isupper())
    capital = "|".join(re.escape(unit) for unit in units if unit[0].isupper())
    number = {"name": SCOPES[words.NUMBER]}
    unit = {"name": SCOPES[words.TYPE]}
    return [
        {"match": r"(?<!\w)\d{4}-\d\d-\d\d(?![\w-])", **number},
        {"match": r"(?<!\w)\d{1,2}:\d\d(?!\w)", **number},
        {
            "match": rf"(?<![\w.])({_NUMBER})(?:[ \t]*({small})|[ \t]+({capital}))(?![\w%/])",
            "captures": {"1": number, "2": unit, "3": unit},
        },
        {
            "match": rf"(?<![\w.])({_NUMBER})[ \t]+(t)(?![\w%/])",
            "captures": {"1": number, "2": unit},
        },
        {"match": rf"(?<![\w.]){_NUMBER}(?![\w])", **number},
    ]


def _block(patterns: list[Rule]) -> Rule:
    return {"begin": r"\{", "end": r"\}", "patterns": [{"include": "#comment"}, *patterns]}


def _children(cls: type[Entry]) -> list[Rule]:
    """The entries of a block, those of more words first, then the one that begins with a name."""
    fields = [field for found in cls.children.values() for field in found]
    fields.sort(key=lambda field: (-len(field.words), field.words))
    found = [{"include": "#comment"}, *(_entry(field) for field in fields)]
    if cls.named is not None:
        assert cls.named.entry is not None
        found.append(_phrase(cls.named.entry, rf"{_BEFORE}({_NAME}){_AFTER}", words.VARIABLE))
    return [*found, {"include": "#unknown"}]


def _entry(field: Field) -> Rule:
    begin = _words(field.words)
    if field.form == ENTRY:
        assert field.type is not None
        return {
            "begin": begin,
            "beginCaptures": {"0": {"name": SCOPES[words.KEYWORD]}},
            "end": _END,
            "patterns": [*_value(field.type), {"include": "#unknown-block"}],
        }
    assert field.entry is not None
    return _phrase(field.entry, begin, words.KEYWORD)


def _phrase(cls: type[Entry], begin: str, kind: str) -> Rule:
    """An entry with a class of its own: clauses, values, block."""
    labels = [field for found in cls.labels.values() for field in found]
    labels.sort(key=lambda field: (-len(field.words), field.words))
    values = [field for field in cls.fields.values() if field.form == VALUE]
    patterns = [rule for field in labels for rule in _label(field, labels)]
    for field in values:
        assert field.type is not None
        patterns += _choices(field.type)
    patterns += _basic_of(values)
    if cls.takes_block():
        patterns.insert(0, _block([{"include": f"#{_slug(cls)}"}]))
    rule: Rule = {
        "begin": begin,
        "beginCaptures": {"0": {"name": SCOPES[kind]}},
        "end": _END,
        "patterns": patterns,
    }
    first = values[0].type if values and values[0].required else None
    if kind == words.KEYWORD and isinstance(first, Name | To) and not isinstance(first, Joints):
        # What stands first is the name, also where it spells like a clause.
        rule["begin"] = rf"({begin})(?:{_GAP}({_NAME}){_AFTER})?"
        rule["beginCaptures"] = {
            "1": {"name": SCOPES[words.KEYWORD]},
            "2": {"name": SCOPES[words.VARIABLE]},
        }
        if any(field.words for field in labels):
            ahead = "|".join(_words(field.words) for field in labels)
            rule["begin"] = rf"({begin})(?:{_GAP}(?!{ahead})({_NAME}){_AFTER})?"
    return rule


def _label(field: Field, labels: list[Field]) -> list[Rule]:
    """A clause with its value, or a flag."""
    begin = _words(field.words)
    if field.form == FLAG:
        return [{"match": begin, "name": SCOPES[words.MODIFIER]}]
    assert field.form == CLAUSE
    assert field.type is not None
    captures = {"1": {"name": SCOPES[words.PROPERTY]}, "2": {"name": ""}}
    type_ = stated(field.type)
    listed = field.many and isinstance(type_, Name | To)
    if listed or isinstance(type_, Expression | DemandText):
        ends = "|".join(_words(each.words) for each in labels)
        return [
            {
                "begin": begin,
                "beginCaptures": {"0": {"name": SCOPES[words.PROPERTY]}},
                "end": rf"(?=[{{}}])|(?={ends})|$" + ("" if listed else "|(?=,)"),
                "patterns": _value(type_) if type_ is not None else [],
            }
        ]
    kind = words.VARIABLE if isinstance(type_, To | Name) else ""
    behind = _NAME if kind else _phrases(choices_of(type_))
    if not kind and behind:
        kind = words.MEMBER
    if isinstance(type_, Address):
        kind, behind = words.VARIABLE, _NAME
    if kind and behind:
        captures["2"] = {"name": SCOPES[kind]}
        return [
            {"match": rf"({begin}){_GAP}({behind}){_AFTER}", "captures": captures},
            {"match": begin, "name": SCOPES[words.PROPERTY]},
        ]
    return [{"match": begin, "name": SCOPES[words.PROPERTY]}, *_choices(type_)]


def _value(type_: Type) -> list[Rule]:
    """What stands in a value."""
    if isinstance(stated(type_), Expression):
        return [{"include": "#formula"}, {"include": "#basic"}]
    return [*_choices(type_), {"include": "#basic"}, *_rest(type_)]


def _basic_of(values: list[Field]) -> list[Rule]:
    rest: list[Rule] = []
    for field in values:
        if field.type is not None and not rest:
            rest = _rest(field.type)
    return [{"include": "#basic"}, *(rest or [{"match": _WORD, "name": SCOPES[words.MEMBER]}])]


def _choices(type_: Type | None) -> list[Rule]:
    found: list[Rule] = [{"include": "#by-rule"}]
    behind = _phrases(choices_of(type_))
    if behind:
        found.append({"match": f"{_BEFORE}(?:{behind}){_AFTER}", "name": SCOPES[words.MEMBER]})
    return found


def _rest(type_: Type) -> list[Rule]:
    """Words of a value that are not choices."""
    stated_type = stated(type_)
    kind = words.MEMBER
    if isinstance(stated_type, To | Name | Address | BookEdition):
        kind = words.VARIABLE
    elif isinstance(stated_type, Expression):
        return [{"include": "#formula"}]
    elif isinstance(stated_type, Size) and not stated_type.known:
        kind = words.NUMBER
    return [{"match": rf"{_BEFORE}{_WORD}", "name": SCOPES[kind]}]


def _words(spoken: Iterable[str]) -> str:
    return _BEFORE + _GAP.join(map(re.escape, spoken)).replace(r"\-", "-") + _AFTER


def _phrases(choices: tuple[str, ...]) -> str:
    """A pattern for any of the choices, the longest first."""
    ordered = sorted(choices, key=lambda choice: (-len(choice), choice))
    return "|".join(
        _GAP.join(re.escape(word).replace(r"\-", "-") for word in choice.split())
        for choice in ordered
    )


def _slug(cls: type[Entry]) -> str:
    return "in-" + re.sub(r"[^a-z0-9]+", "-", f"{title(cls)} {cls.__name__}".lower()).strip("-")
