"""Signs of warning and of what must be worn, after ISO 7010, drawn here: shape and black symbol
tell them apart where a print has no colour."""

from __future__ import annotations

from functools import lru_cache

#: Side of a sign on paper, mm.
SIZE = 9.0
_YELLOW, _BLUE = "#f9d616", "#0a5ca8"
_TRIANGLE = (
    f'<path d="M50 8 L95 88 L5 88 Z" fill="{_YELLOW}" stroke="#000" stroke-width="7" '
    'stroke-linejoin="round"/>'
)
_DISC = f'<circle cx="50" cy="50" r="44" fill="{_BLUE}" stroke="#000" stroke-width="1.5"/>'
_LINE = 'fill="none" stroke="#000" stroke-width="5" stroke-linecap="round"'
#: Symbols in a square of 100 by 100.
_SYMBOLS = {
    # W012
    "electricity": _TRIANGLE + '<path d="M54 34 L40 60 L50 60 L44 80 L62 53 L51 53 L60 34 Z"/>',
    # W017
    "hot surface": _TRIANGLE
    + f'<path d="M30 77 H70" {_LINE}/><path d="M38 68 q-5 -6 0 -11 t0 -11" {_LINE}/>'
    f'<path d="M50 68 q-5 -6 0 -11 t0 -11" {_LINE}/><path d="M62 68 q-5 -6 0 -11 t0 -11" {_LINE}/>',
    # W021
    "fire": _TRIANGLE
    + '<path d="M50 36 C58 48 64 54 62 66 C60 76 54 79 50 79 C43 79 37 74 38 65 C39 59 43 58 44 51 '
    'C48 54 50 57 50 60 C53 54 52 44 50 36 Z"/>',
    # W006
    "magnetic field": _TRIANGLE
    + '<path d="M38 78 V58 a12 12 0 0 1 24 0 V78" fill="none" stroke="#000" stroke-width="8"/>'
    f'<path d="M38 79 v-6 M62 79 v-6" stroke="{_YELLOW}" stroke-width="4"/>',
    # W041
    "suffocation": _TRIANGLE
    + '<circle cx="50" cy="45" r="6"/><path d="M50 52 V66 M40 58 H60 M50 66 L42 79 M50 66 L58 79" '
    f"{_LINE}/>",
    # W015
    "overhead load": _TRIANGLE + f'<path d="M50 34 V50" {_LINE}/><path d="M37 52 H63 V62 H37 Z"/>'
    f'<path d="M34 79 H66" {_LINE}/><path d="M50 66 v8 m-4 -4 l4 4 l4 -4" {_LINE}/>',
    # W001
    "danger": _TRIANGLE + '<path d="M45 38 H55 L53 65 H47 Z"/><circle cx="50" cy="75" r="5"/>',
    # M004
    "eye protection": _DISC + '<circle cx="50" cy="52" r="27" fill="#fff"/>'
    '<rect x="26" y="43" width="20" height="14" rx="5"/>'
    '<rect x="54" y="43" width="20" height="14" rx="5"/>'
    '<path d="M44 48 H56" stroke="#000" stroke-width="4"/>',
    # M016
    "mask": _DISC
    + '<path d="M50 20 C68 20 74 34 73 48 C72 66 62 79 50 79 C38 79 28 66 27 48 C26 34 32 20 50 20 '
    'Z" fill="#fff"/><path d="M33 52 Q50 44 67 52 L64 66 Q50 80 36 66 Z"/>'
    '<path d="M27 46 L34 53 M73 46 L66 53" stroke="#000" stroke-width="3"/>'
    '<path d="M38 40 H45 M55 40 H62" stroke="#000" stroke-width="3.5"/>',
}


@lru_cache(maxsize=16)
def svg(name: str) -> str:
    """The sign as SVG."""
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">' + _SYMBOLS[name] + "</svg>"
    )
