"""Requests of an editor, answered from what stands in the texts; only the protocol's forms are made
here."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from lsprotocol import types
from pygls.exceptions import JsonRpcInvalidParams

from hts.base.findings import Kind, Report
from hts.base.text import BYTE_ORDER_MARK, Source
from hts.editor import offer as offers
from hts.editor import tokens as words
from hts.editor.buffer import Buffer, uri_of
from hts.editor.completion import completion, prefix_start
from hts.editor.hover import escaped, hover
from hts.editor.offer import Offer, Surroundings
from hts.editor.phrase import NAME, REFERENCE
from hts.editor.rename import CannotRename, renameable, renamed
from hts.editor.session import Data, Session, reference
from hts.editor.symbols import Symbol, foldings, selections, symbols
from hts.language.layout import settled

#: The one action that editors may be told to take on saving: it changes no meaning.
FIX_ALL = "source.fixAll.hts"
_KINDS = {
    offers.ENTRY: types.CompletionItemKind.Struct,
    offers.CLAUSE: types.CompletionItemKind.Property,
    offers.FLAG: types.CompletionItemKind.Keyword,
    offers.CHOICE: types.CompletionItemKind.EnumMember,
    offers.NAME: types.CompletionItemKind.Reference,
    offers.UNIT: types.CompletionItemKind.Unit,
    offers.VALUE: types.CompletionItemKind.Value,
    offers.FACT: types.CompletionItemKind.Function,
    offers.FILE: types.CompletionItemKind.File,
}
_SYMBOLS = {
    "job": types.SymbolKind.File,
    "joint": types.SymbolKind.Class,
    "zone": types.SymbolKind.Field,
    "thermocouple": types.SymbolKind.Variable,
    "cycle": types.SymbolKind.Function,
    "bake": types.SymbolKind.Function,
    "preheat": types.SymbolKind.Function,
    "material": types.SymbolKind.Struct,
    "procedure": types.SymbolKind.Module,
}


@lru_cache(maxsize=1)
def kinds() -> Sequence[Kind]:
    """The kinds of all rules; read when a rule is first asked about."""
    from hts.checking.checker.all_kinds import all_kinds

    return all_kinds()


def _rules() -> list[tuple[str, str]]:
    return [(kind.name, kind.summary) for kind in kinds()]


def _at(session: Session, uri: str, position: types.Position) -> tuple[Buffer, int] | None:
    """The text and the offset that a request is about; None for a text that is not open."""
    buffer = session.workspace.buffers.get(uri)
    if buffer is None:
        return None
    return buffer, buffer.offset(position.line, position.character)


# While writing -----------------------------------------------------------------------------------


def complete(session: Session, params: types.CompletionParams) -> types.CompletionList:
    """What can be written at the cursor."""
    found = _at(session, params.text_document.uri, params.position)
    if found is None:
        return types.CompletionList(False, [])
    buffer, offset = found
    workspace = session.workspace
    around = Surroundings(
        workspace.names(buffer),
        today=_today(),
        files=lambda: workspace.files_for(buffer),
        rules=_rules,
        books=lambda: workspace.books_for(buffer),
    )
    start = prefix_start(buffer.text, offset)
    written = session.range(buffer, start, offset)
    items = [
        _item(each, number, written, session.takes_snippets)
        for number, each in enumerate(completion(buffer.placed, offset, around))
    ]
    return types.CompletionList(False, items)


def _today() -> str:
    import datetime

    return datetime.date.today().isoformat()


def _item(each: Offer, number: int, written: types.Range, snippets: bool) -> types.CompletionItem:
    filled = snippets and bool(each.snippet)
    text = each.snippet if filled else each.insert
    form = types.InsertTextFormat.Snippet if filled else types.InsertTextFormat.PlainText
    return types.CompletionItem(
        each.label,
        kind=_KINDS[each.kind],
        detail=each.detail or None,
        documentation=each.about or None,
        sort_text=f"{number:04}",
        filter_text=each.label,
        insert_text_format=form,
        text_edit=types.TextEdit(written, text),
    )


def hovering(session: Session, params: types.HoverParams) -> types.Hover | None:
    """What stands at the cursor."""
    found = _at(session, params.text_document.uri, params.position)
    if found is None:
        return None
    buffer, offset = found
    place = buffer.placed.at(offset)
    if place is None:
        return None
    names = session.workspace.names(buffer)
    rules = kinds() if place.names == "rule" else ()
    parts = []
    outcome = session.outcome(buffer)
    for finding in outcome.findings if outcome is not None else ():
        if finding["start"] <= offset <= finding["end"]:
            head = f"**{finding['code']} {finding['name']}**"
            parts.append(f"{head}: {escaped(finding['message'])}\n\n{escaped(finding['why'])}")
    about = hover(place, names, session.reasons(buffer), rules)
    parts += [about] if about else []
    if not parts:
        return None
    value = "\n\n---\n\n".join(parts)
    at = session.range(buffer, place.span.start, place.span.end)
    return types.Hover(types.MarkupContent(types.MarkupKind.Markdown, value), at)


def hinting(session: Session, params: types.InlayHintParams) -> list[types.InlayHint]:
    """What is worked out, behind what is written."""
    buffer = session.workspace.buffers.get(params.text_document.uri)
    outcome = session.outcome(buffer) if buffer is not None else None
    if buffer is None or outcome is None or not session.shows_hints:
        return []
    lines = range(params.range.start.line, params.range.end.line + 1)
    return [
        types.InlayHint(
            types.Position(line, column), each.label, tooltip=each.about, padding_left=True
        )
        for each in outcome.hints
        for line, column in [buffer.position(each.offset)]
        if line in lines
    ]


def laying_out(session: Session, params: types.DocumentFormattingParams) -> list[types.TextEdit]:
    """The text in the one layout; as it is where it cannot be laid out."""
    buffer = session.workspace.buffers.get(params.text_document.uri)
    if buffer is None:
        return []
    after = settled(Source(buffer.text, buffer.name), Report())
    if after is None or after == buffer.text:
        return []
    mark = BYTE_ORDER_MARK if buffer.mark else ""
    whole = types.Range(
        types.Position(0, 0), types.Position(*buffer.lines.position(len(buffer.whole)))
    )
    return [types.TextEdit(whole, mark + after)]


async def acting(session: Session, params: types.CodeActionParams) -> list[types.CodeAction]:
    """What can be done at a place: each is proved on the text as it is."""
    uri = params.text_document.uri
    buffer = session.workspace.buffers.get(uri)
    if buffer is None:
        return []
    version = buffer.version
    only = [str(getattr(kind, "value", kind)) for kind in params.context.only or ()]
    if any(kind.startswith("source") for kind in only):
        found = await session.checks.actions(uri, None) if FIX_ALL.startswith(only[0]) else []
    else:
        between = (
            buffer.offset(params.range.start.line, params.range.start.character),
            buffer.offset(params.range.end.line, params.range.end.character),
        )
        found = await session.checks.actions(uri, between)
    if buffer.version != version:
        # The text went on: what was proved was proved about another one.
        return []
    return [_action(session, buffer, each, params.context.diagnostics) for each in found]


def _action(
    session: Session, buffer: Buffer, each: Data, told: Sequence[types.Diagnostic]
) -> types.CodeAction:
    edits = [
        types.TextEdit(session.range(buffer, start, end), text)
        for start, end, text in each["edits"]
    ]
    kind = FIX_ALL if each["kind"] == "all layout" else types.CodeActionKind.QuickFix
    return types.CodeAction(
        each["title"],
        kind=kind,
        diagnostics=[d for d in told if d.code == each["code"]] or None,
        # Only what changes no meaning is what an editor may do by itself.
        is_preferred=each["kind"] == "layout" or None,
        edit=types.WorkspaceEdit({buffer.uri: edits}),
    )


# The whole text ----------------------------------------------------------------------------------


def listing(session: Session, params: types.DocumentSymbolParams) -> list[types.DocumentSymbol]:
    """The entries of a text."""
    buffer = session.workspace.buffers.get(params.text_document.uri)
    if buffer is None:
        return []
    return [_symbol(session, buffer, each) for each in symbols(buffer.placed)]


def _symbol(session: Session, buffer: Buffer, each: Symbol) -> types.DocumentSymbol:
    return types.DocumentSymbol(
        each.name,
        _SYMBOLS.get(each.kind, types.SymbolKind.Property),
        session.range(buffer, *each.span),
        session.range(buffer, *each.name_span),
        detail=each.detail,
        children=[_symbol(session, buffer, inner) for inner in each.inner],
    )


def folding(session: Session, params: types.FoldingRangeParams) -> list[types.FoldingRange]:
    """The blocks of a text."""
    buffer = session.workspace.buffers.get(params.text_document.uri)
    if buffer is None:
        return []
    found = []
    for start, end in foldings(buffer.placed):
        first, last = buffer.position(start)[0], buffer.position(end)[0]
        if last - 1 > first:
            found.append(types.FoldingRange(first, last - 1))
    return found


def selecting(session: Session, params: types.SelectionRangeParams) -> list[types.SelectionRange]:
    """What a selection grows to, from each position."""
    buffer = session.workspace.buffers.get(params.text_document.uri)
    found = []
    for position in params.positions:
        grown: types.SelectionRange | None = None
        if buffer is not None:
            offset = buffer.offset(position.line, position.character)
            for span in reversed(selections(buffer.placed, offset)):
                grown = types.SelectionRange(session.range(buffer, *span), grown)
        found.append(grown or types.SelectionRange(types.Range(position, position)))
    return found


def colouring(session: Session, params: types.SemanticTokensParams) -> types.SemanticTokens:
    """What each word of a text is."""
    buffer = session.workspace.buffers.get(params.text_document.uri)
    if buffer is None:
        return types.SemanticTokens([])
    numbers: list[int] = []
    before = (0, 0)
    for token in words.tokens(buffer.placed, session.workspace.names(buffer)):
        line, column = buffer.position(token.start)
        last, end = buffer.position(token.end)
        if last != line:
            continue
        numbers += [
            line - before[0],
            column - before[1] if line == before[0] else column,
            end - column,
            words.KINDS.index(token.kind),
            sum(1 << words.MODIFIERS.index(name) for name in token.modifiers),
        ]
        before = (line, column)
    return types.SemanticTokens(numbers)


def linking(session: Session, params: types.DocumentLinkParams) -> list[types.DocumentLink]:
    """The files a text uses, and the pages of the books it names."""
    buffer = session.workspace.buffers.get(params.text_document.uri)
    if buffer is None:
        return []
    found = [
        types.DocumentLink(session.range(buffer, *span), target=uri_of(path))
        for span, path in session.workspace.links(buffer)
    ]
    page = reference("BOOKS.md")
    for place in buffer.placed.places():
        if page is not None and place.role == REFERENCE and place.path == "job.governed by":
            at = session.range(buffer, place.span.start, place.span.end)
            found.append(
                types.DocumentLink(at, target=f"{uri_of(page)}#{place.word.replace('.', '')}")
            )
    return found


# Names -------------------------------------------------------------------------------------------


def going_to(session: Session, params: types.DefinitionParams) -> types.Location | None:
    """Where a name is declared."""
    found = _at(session, params.text_document.uri, params.position)
    if found is None:
        return None
    buffer, offset = found
    for (start, end), path in session.workspace.links(buffer):
        if start <= offset <= end:
            first = types.Position(0, 0)
            return types.Location(uri_of(path), types.Range(first, first))
    declared = session.declared(buffer.uri, offset)
    if declared is None:
        return None
    return session.location(declared.text, declared.span.start, declared.span.end)


def referring(session: Session, params: types.ReferenceParams) -> list[types.Location]:
    """Every place where a name stands for the same."""
    found = _at(session, params.text_document.uri, params.position)
    if found is None:
        return []
    buffer, offset = found
    declared = session.declared(buffer.uri, offset)
    if declared is None:
        return []
    own = (declared.span.start, declared.span.end)
    return [
        location
        for _, text, spans in session.workspace.spans(declared, buffer)
        for span in spans
        if params.context.include_declaration
        or span != own
        or text.source is not declared.span.source
        if (location := session.location(text, *span)) is not None
    ]


def preparing(session: Session, params: types.PrepareRenameParams) -> types.Range | None:
    """The name that would be changed."""
    found = _at(session, params.text_document.uri, params.position)
    if found is None:
        return None
    buffer, offset = found
    place = buffer.placed.at(offset)
    if place is None or place.role not in (NAME, REFERENCE):
        return None
    return session.range(buffer, place.span.start, place.span.end)


def renaming(session: Session, params: types.RenameParams) -> types.WorkspaceEdit | None:
    """A name changed in every text; refused while the text has errors, for then it is not known
    what stands for what."""
    found = _at(session, params.text_document.uri, params.position)
    if found is None:
        return None
    buffer, offset = found
    outcome = session.outcome(buffer)
    if outcome is None:
        raise JsonRpcInvalidParams("the text is being checked; try again in a moment")
    if any(finding["severity"] == "error" for finding in outcome.findings):
        raise JsonRpcInvalidParams("the text has errors; correct them first")
    try:
        target = renameable(session.workspace, buffer, buffer.placed.at(offset))
        places = renamed(session.workspace, buffer, target, params.new_name)
    except CannotRename as error:
        raise JsonRpcInvalidParams(str(error)) from None
    changes: dict[str, list[types.TextEdit]] = {}
    for _, text, spans in places:
        for span in spans:
            location = session.location(text, *span)
            if location is not None:
                edit = types.TextEdit(location.range, params.new_name)
                changes.setdefault(location.uri, []).append(edit)
    return types.WorkspaceEdit(changes)
