"""Builds the parse tables of the grammars with Lark, as plain data.

Lark reads the grammar, numbers the LALR(1) states and orders the terminals; what is shipped is a
JSON file that `hts.syntax.lalr` drives. A process that checks a file therefore never imports Lark.
"""

from __future__ import annotations

import json
import os
from typing import Any

from hts.generate.units_grammar import units_grammar

GRAMMARS = ("hts", "formula")


def generate(root: str) -> dict[str, str]:
    """Path to text of every parse table, relative to the repository root."""
    made = {}
    for name in GRAMMARS:
        with open(os.path.join(root, "grammar", f"{name}.lark"), encoding="utf-8") as file:
            tables = build(file.read())
        text = json.dumps(tables, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
        made[f"hts/base/data/compiled/grammar-{name}.json"] = text + "\n"
    return made


def build(grammar: str) -> dict[str, Any]:
    """Tables of one grammar text.

    ``lexer``: one regular expression, a named group for each terminal in order of priority.
    ``rules``: origin, number of symbols, indices of the symbols kept, 1 if a lone child stands
    for the rule. ``states``: symbol -> action; an action of n >= 0 shifts (or goes) to state n,
    and -1-n reduces by rule n.
    """
    from lark import Lark
    from lark.grammar import Rule
    from lark.lexer import PatternStr, TerminalDef

    def find_units(_base: Any, path: str) -> tuple[str, str]:
        if path != "units.lark":
            raise OSError(path)
        return path, units_grammar()

    lark = Lark(grammar, parser="lalr", lexer="basic", import_paths=[find_units])
    data, memo = lark.memo_serialize([TerminalDef, Rule])
    terminals = sorted(
        lark.terminals,
        key=lambda t: (-t.priority, -t.pattern.max_width, -len(t.pattern.value), t.name),
    )
    groups = []
    for terminal in terminals:
        pattern = terminal.pattern.to_regexp()
        name = "SKIP" if terminal.name in lark.ignore_tokens else terminal.name
        if isinstance(terminal.pattern, PatternStr) and not pattern.startswith("(?"):
            pattern = f"(?:{pattern})"
        groups.append(f"(?P<{name}>{pattern})")

    table = data["parser"]["parser"]
    tokens = table["tokens"]
    rule_keys: list[int] = [reference["@"] for reference in data["rules"]]
    rules = []
    for key in rule_keys:
        rule = memo[key]
        kept = [i for i, symbol in enumerate(rule["expansion"]) if not symbol.get("filter_out")]
        origin = rule["alias"] or rule["origin"]["name"]
        rules.append(
            [
                rule["origin"]["name"],
                origin,
                len(rule["expansion"]),
                kept,
                int(rule["options"]["expand1"] and not rule["alias"]),
            ]
        )
    states: list[dict[str, int]] = [{} for _ in table["states"]]
    for number, actions in table["states"].items():
        for token, (kind, target) in actions.items():
            action = -1 - rule_keys.index(target["@"]) if kind == 1 else target
            states[number][tokens[token]] = action
    start: int = table["start_states"]["start"]
    order = _in_order(states, start)
    number = {old: new for new, old in enumerate(order)}
    return {
        "lexer": "|".join(groups),
        "rules": rules,
        "states": [
            {symbol: number[a] if a >= 0 else a for symbol, a in states[old].items()}
            for old in order
        ],
        "start": number[start],
        "end": number[table["end_states"]["start"]],
    }


def _in_order(states: list[dict[str, int]], start: int) -> list[int]:
    """The states as they are reached from the start: Lark's own numbers vary from run to run."""
    order = [start]
    for state in order:
        for _, action in sorted(states[state].items()):
            if action >= 0 and action not in order:
                order.append(action)
    return order
