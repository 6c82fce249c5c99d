"""Specifications in colour wherever Pygments colours texts: in documents, web pages, terminals."""

from __future__ import annotations

from collections.abc import Iterator

from pygments import token as kinds
from pygments.lexer import Lexer

from hts.base.text import Source
from hts.editor import tokens as words
from hts.editor.place import Text

_KINDS = {
    words.KEYWORD: kinds.Keyword,
    words.PROPERTY: kinds.Name.Attribute,
    words.MODIFIER: kinds.Keyword.Pseudo,
    words.MEMBER: kinds.Name.Constant,
    words.VARIABLE: kinds.Name.Variable,
    words.NUMBER: kinds.Number,
    words.TYPE: kinds.Keyword.Type,
    words.STRING: kinds.String,
    words.COMMENT: kinds.Comment.Single,
    words.OPERATOR: kinds.Operator,
    words.FUNCTION: kinds.Name.Function,
}


class HtsLexer(Lexer):
    """Colours each word by what it is in its entry, as hts.editor.tokens tells."""

    name = "hts"
    aliases = ["hts"]
    filenames = ["*.hts"]
    url = ""

    def get_tokens_unprocessed(self, text: str) -> Iterator[tuple[int, kinds._TokenType, str]]:
        """Every letter of the text with its kind, in order."""
        at = 0
        for token in words.tokens(Text(Source(text, "text"))):
            if token.start > at:
                yield at, kinds.Text, text[at : token.start]
            yield token.start, _KINDS[token.kind], text[token.start : token.end]
            at = token.end
        if at < len(text):
            yield at, kinds.Text, text[at:]
