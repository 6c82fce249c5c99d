"""Which kinds of finding count, and how grave they are: what a team may choose and what not.

A rule is named by its code, its name, or the letters of its family. What has a floor cannot be
left out, nor set below it, and every error stays a warning at least: a family passes over such
rules, and naming one is an error.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import Any

from hts.base.findings import ADVICE, ERROR, WARNING, Kind, Severity
from hts.checking.checker.results import PackError
from hts.checking.configuration.configuration import ConfigurationError
from hts.checking.configuration.places import Path
from hts.checking.configuration.reading import Reading

_GRAVITY: dict[str, int] = {ADVICE: 0, WARNING: 1, ERROR: 2}


class Chooser:
    """Puts what is written to the kinds there are, those of the named packs included.

    The methods raise ConfigurationError. Without anything to look up no rule is imported.
    """

    def __init__(self, reading: Reading, packs: tuple[str, ...]) -> None:
        self.reading = reading
        self.packs = packs

    @cached_property
    def kinds(self) -> tuple[Kind, ...]:
        from hts.checking.checker.packs import kinds

        try:
            return kinds(self.packs)
        except PackError as error:
            at = (*self.reading.root, "rule-packs")
            raise self.reading.wrong(at, str(error), "install it, or remove its name") from None

    def left_out(self, select: Iterable[str], ignore: Iterable[str]) -> frozenset[str]:
        """The codes that do not count."""
        root = self.reading.root
        selected: set[str] = set()
        for number, word in enumerate(select):
            selected |= {kind.code for kind in self._meant((*root, "select", number), word)}
        codes: set[str] = set()
        if selected:
            codes |= {k.code for k in self.kinds if k.lowest is None and k.code not in selected}
        for number, word in enumerate(ignore):
            at = (*root, "ignore", number)
            kinds = self._meant(at, word)
            free = [kind for kind in kinds if kind.lowest is None]
            if not free:
                raise self._floor(at, word, kinds[0], "be ignored")
            codes |= {kind.code for kind in free}
        return frozenset(codes)

    def severities(self, table: Mapping[str, Any]) -> tuple[tuple[str, Severity], ...]:
        """Codes with the severity set for them, by code."""
        families: dict[str, Severity] = {}
        rules: dict[str, Severity] = {}
        for word, severity in table.items():
            at = (*self.reading.root, "severity", word)
            known = isinstance(severity, str) and severity in _GRAVITY
            if not known:
                raise self.reading.wrong(
                    at,
                    f"a severity cannot be {severity!r}",
                    f"it is one of: {', '.join(_GRAVITY)}; to leave a rule out, name it in "
                    f"`ignore`",
                )
            kinds = self._meant(at, word)
            free = [kind for kind in kinds if _allowed(kind, severity)]
            if not free:
                raise self._floor(at, word, kinds[0], f"be set to {severity}")
            found = families if _is_family(kinds[0], word) else rules
            for kind in free:
                if kind.code in found:
                    raise self.reading.wrong(
                        at, f"{kind.code} {kind.name} is set twice", "keep one"
                    )
                found[kind.code] = severity
        # A rule named by itself counts before its family.
        return tuple(sorted({**families, **rules}.items()))

    def _meant(self, at: Path, word: str) -> list[Kind]:
        """The kinds a word names, at least one."""
        meant = [kind for kind in self.kinds if word in (kind.code, kind.name, _family(kind))]
        if not meant:
            from hts.checking.rules.former import meant as instead

            known = [name for kind in self.kinds for name in (kind.name, kind.code)]
            raise self.reading.wrong(
                at,
                f"there is no rule {word!r}",
                instead(word, known) or "`hts rules` lists them",
            )
        return meant

    def _floor(self, at: Path, word: str, kind: Kind, what: str) -> ConfigurationError:
        if _is_family(kind, word):
            return self.reading.wrong(at, f"no rule of family {word} can {what}", "remove it")
        return self.reading.wrong(
            at,
            f"{kind.code} {kind.name} cannot {what}: {kind.lowest} is the lowest it may be",
            kind.why,
        )


def _allowed(kind: Kind, severity: str) -> bool:
    return kind.lowest is None or _GRAVITY[severity] >= _GRAVITY[kind.lowest]


def _family(kind: Kind) -> str:
    """The letters a code begins with."""
    return kind.code.rstrip("0123456789")


def _is_family(kind: Kind, word: str) -> bool:
    return word == _family(kind)
