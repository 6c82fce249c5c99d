"""What editors need to know of the language: colours, snippets, brackets.

Everything is made from the vocabulary, so that a new entry is known to every editor at once.
"""

from __future__ import annotations

import json
import re
from typing import Any

from hts.base.quantities.pattern import spellings
from hts.editor.choices import choices_of
from hts.editor.snippets import snippet_of
from hts.generate.textmate import grammar
from hts.language.vocabulary.declare import BLOCK, CLAUSE, FLAG
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.spec import File

FOLDER = "grammar/editors"


def generate(root: str) -> dict[str, str]:
    """The files for editors by path."""
    return {
        f"{FOLDER}/hts.tmLanguage.json": grammar(),
        f"{FOLDER}/snippets.json": _json(snippets()),
        f"{FOLDER}/language-configuration.json": _json(CONFIGURATION),
        f"{FOLDER}/vim/syntax/hts.vim": vim(),
        f"{FOLDER}/vim/ftdetect/hts.vim": "autocmd BufNewFile,BufRead *.hts setfiletype hts\n",
    }


CONFIGURATION: dict[str, Any] = {
    "comments": {"lineComment": "#"},
    "brackets": [["{", "}"], ["(", ")"]],
    "autoClosingPairs": [
        {"open": "{", "close": "}"},
        {"open": "(", "close": ")"},
        {"open": '"', "close": '"', "notIn": ["string", "comment"]},
    ],
    "surroundingPairs": [["{", "}"], ["(", ")"], ['"', '"']],
    "wordPattern": r"[^\s,{}()\"#]+",
    "indentationRules": {
        "increaseIndentPattern": r"^[^#\"]*(?:\"[^\"]*\"[^#\"]*)*\{\s*(?:#.*)?$",
        "decreaseIndentPattern": r"^\s*\}",
    },
    "onEnterRules": [
        {
            "beforeText": r"^\s*#",
            "action": {"indent": "none", "appendText": "# "},
        }
    ],
}


def snippets() -> dict[str, Any]:
    """Every entry with a block or clauses of its own, with places to fill in."""
    found: dict[str, Any] = {}
    for path, _, field in walk(File):
        if field.form != BLOCK or not field.words:
            continue
        words = " ".join(field.words)
        known = found.setdefault(
            path,
            {
                "prefix": words,
                "body": snippet_of(field).split("\n"),
                "description": field.doc,
            },
        )
        known["scope"] = "hts"
    return found


def vim() -> str:
    """A syntax file for Vim: words coloured by what they are in most places."""
    entries: set[str] = set()
    clauses: set[str] = set()
    flags: set[str] = set()
    choices: set[str] = set()
    for _, _, field in walk(File):
        words = " ".join(field.words)
        if field.form == FLAG:
            flags.add(words)
        elif field.form == CLAUSE:
            clauses.add(words)
        elif words:
            entries.add(words)
        choices.update(choice for choice in choices_of(field.type) if choice[0].isalpha())
    units = sorted(spellings(), key=lambda unit: (-len(unit), unit))
    lines = [
        '" Made from the vocabulary of hts by `python -m hts.generate`; do not edit.',
        "if exists('b:current_syntax')",
        "  finish",
        "endif",
        "syntax case match",
        *_matches("htsChoice", choices),
        *_matches("htsFlag", flags),
        *_matches("htsClause", clauses),
        *_matches("htsEntry", entries, first=True),
        r"syntax match htsNumber /\v(<|-)\d+(\.\d+)?([ \t]+\d+\/\d+|\/\d+)?>/",
        r"syntax match htsNumber /\v<\d{4}-\d\d-\d\d>|<\d{1,2}:\d\d>/",
        r"syntax match htsUnit /\v(\d[ \t]*)@<=(" + "|".join(map(_vim, units)) + r")(\w)@!/",
        r"syntax match htsEntry /\v<by[ \t]+rule>/",
        r'syntax region htsText start=/"/ skip=/\\./ end=/"/ oneline',
        "syntax match htsComment /#.*$/",
        "syntax region htsBlock start=/{/ end=/}/ transparent fold",
        "setlocal commentstring=#\\ %s",
        "highlight default link htsEntry Statement",
        "highlight default link htsClause Identifier",
        "highlight default link htsFlag StorageClass",
        "highlight default link htsChoice Constant",
        "highlight default link htsNumber Number",
        "highlight default link htsUnit Type",
        "highlight default link htsText String",
        "highlight default link htsComment Comment",
        "let b:current_syntax = 'hts'",
    ]
    return "\n".join(lines) + "\n"


def _matches(group: str, words: set[str], first: bool = False) -> list[str]:
    """Lines that give words a colour; ``first``: only where they begin a line."""
    begin = r"^\s*\zs" if first else "<"
    ordered = sorted(words, key=lambda each: (len(each), each))
    return [f"syntax match {group} /\\v{begin}{_vim(each)}[-.0-9A-Za-z_]@!/" for each in ordered]


def _vim(words: str) -> str:
    """Words as a very magic pattern of Vim."""
    return r"[ \t]+".join(
        re.sub(r"[^A-Za-z0-9_ °]", lambda found: "\\" + found[0], part) for part in words.split(" ")
    )


def _json(document: Any) -> str:
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"
