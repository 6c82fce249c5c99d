"""Writes which letters paper can show: those of both shipped fonts, and signs that are replaced.

A check reads the list and never opens a font.
"""

from __future__ import annotations

import json

from fontTools.ttLib import TTFont

from hts.paper.packet.letters import SIGNS
from hts.paper.sheet.fonts import BOLD, REGULAR


def generate(root: str) -> dict[str, str]:
    """Path to text of the list: code points as pairs, first and last of each run."""
    regular, bold = (set(TTFont(path, lazy=True).getBestCmap()) for path in (REGULAR, BOLD))
    known = sorted((regular & bold) | {ord(sign) for sign in SIGNS})
    runs: list[list[int]] = []
    for code in known:
        if runs and runs[-1][1] == code - 1:
            runs[-1][1] = code
        else:
            runs.append([code, code])
    text = json.dumps({"runs": runs}, separators=(",", ":"))
    return {"hts/base/data/compiled/letters.json": text + "\n"}
