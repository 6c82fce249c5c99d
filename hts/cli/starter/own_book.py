"""The skeleton of a rule book of one's own: `hts books --new FILE.yaml` writes it."""

from __future__ import annotations

import re
from string import Template

#: Every … is refused until it is filled in, so that no figure of an example becomes a limit.
_TEXT = Template(
    """\
# A rule book of your own. Replace each … and run `hts books $path` until nothing is told.
# Bring it into a specification with   book "$name"
# and name it in the job with          governed by $id edition …
# Facts, quantities and formulas: grammar/ADD-A-BOOK.md.
id: $id
title: …
# The designation of the standard or law, put before every citation.
standard: …
about: …
# Where you saw the figures: which part, in which copy, how recent, what of it could not be seen.
# With a second page, give it a name of its own, and `seen: NAME` to each row.
seen:
  page: …
# What every user has to know: which work the book is for where no fact says it, which book to name
# beside it. Remove the two lines if there is nothing.
cautions:
  - …
# Years in quotes. A row without `editions:` holds in all of them; remove both where there are none.
editions:
  "…": {}
rows:
  # Which thickness is the t of the formulas: thicker_wall, thinner_wall, throat, groove_depth.
  - id: thickness
    quantity: governing thickness
    is: …
    cite: …                # page, table or paragraph
    basis: …               # published (you have seen it), memory, practice, or derived
    confidence: …          # high, medium or low
  # Whether a weld is heat treated: required, exempt, none. An exemption replaces the row it lifts.
  - id: treat-p1
    quantity: post-weld heat treatment
    for: {p_number: ["1"]}
    when: …                # such as: t > 30 mm or specified_carbon > 0.25 %
    status: required
    cite: …
    basis: …
    confidence: …
  # A range in one system of units, or printed in both: {SI: [… degC, … degC], US: [… degF, … degF]}
  - id: hold-p1
    quantity: hold temperature
    for: {p_number: ["1"]}
    between: [… degC, … degC]
    cite: …
    basis: …
    confidence: …
  - id: time-p1
    quantity: hold time
    for: {p_number: ["1"]}
    at_least: …            # such as: max(30 min, 2.5 min/mm * t)
    cite: …
    basis: …
    confidence: …
  - id: heating-rate
    quantity: heating rate
    at_most: …             # such as: min(200 degC/h, 5000 degC/h * 1 mm / t)
    above: … degC
    cite: …
    basis: …
    confidence: …
"""
)


def skeleton(path: str, id: str) -> str:
    """The text of a book to begin with; `path` as the user named it."""
    name = path.replace("\\", "/")
    return _TEXT.substitute(path=name, name=name, id=id)


def id_of(name: str) -> str:
    """The name of a book from the name of its file: small letters, digits, hyphens and dots.

    "" where none is left to begin with.
    """
    plain = re.sub(r"[^a-z0-9.]+", "-", name.lower()).strip("-.")
    found = re.sub(r"([-.])[-.]+", r"\1", plain)
    return found if found[:1].isalpha() else ""
