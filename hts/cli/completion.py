"""What a shell offers when a word is completed; nothing is read before that."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import click
    from click.shell_completion import CompletionItem


def file_names(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """Files, as the shell itself completes them."""
    from click.shell_completion import CompletionItem

    return [CompletionItem(begun, type="file")]


def rule_names(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """Names of rules with their summaries; codes once a code has been begun."""
    from click.shell_completion import CompletionItem

    from hts.checking.checker.all_kinds import all_kinds

    return [
        CompletionItem(word, help=kind.summary)
        for kind in all_kinds()
        for word in ((kind.code,) if begun[:1].isupper() else (kind.name,))
        if word.startswith(begun)
    ]


def book_names(ctx: click.Context, param: click.Parameter, begun: str) -> list[str]:
    """Names of rule books."""
    from hts.limits import books

    return [name for name in books() if name.startswith(begun)]
