"""The specifications that are timed: all different, all without a finding, about 60 lines each."""

from __future__ import annotations

import os

from hts.base.findings import Report
from hts.base.text import Source
from hts.checking.rules.examples import BUTT, PREHEAT
from hts.language.model import Loader
from hts.language.vocabulary.export import export

#: The single specification of a cold start: a whole post-weld heat treatment of some 120 lines.
ONE = BUTT

#: One in five is a whole heat treatment, the others are preheats of 44 lines: 60 on average.
_EVERY = 5


def text(number: int) -> str:
    """The specification of this number (from 0): names, certificates, sizes, limits differ."""
    if number % _EVERY == 0:
        return _heat_treatment(number)
    return (
        PREHEAT.replace("HT-0002", f"HT-{number:05}")
        .replace("drain line tie-in", f"drain line tie-in {number}")
        .replace("D3", f"D{number}")
        .replace("0.432 in", f"{432 + number % 60}/1000 in")
        .replace("PQR-07", f"PQR-{number % 89 + 10}")
        .replace("at most 600 degF", f"at most {500 + number % 101} degF")
        .replace("C 0.25 %, Mn 0.80 %", f"C 0.{20 + number % 6} %, Mn 0.{70 + number % 23} %")
    )


def _heat_treatment(number: int) -> str:
    return (
        BUTT.replace("HT-0001", f"HT-{number:05}")
        .replace("header butt", f"header butt {number}")
        .replace("W12", f"W{number}")
        .replace("H4471", f"H{4471 + number}")
        .replace("PQR-31", f"PQR-{number % 89 + 10}")
        .replace("40-118", f"40-{number + 100}")
        .replace("Mn 0.45 %", f"Mn 0.{40 + number % 20} %")
        .replace("1.2 m upstream", f"{1200 + number % 700} mm upstream")
    )


def as_yaml(spec: str) -> str:
    """The same content in YAML, as the peers read it."""
    import yaml

    report = Report()
    file = Loader(os.getcwd()).file(Source(spec, "spec.hts"), report)
    if report.findings:
        raise ValueError(report.findings)

    class Indented(yaml.SafeDumper):
        """Indents the items of lists, as yamllint wants them."""

        def increase_indent(self, flow: bool = False, indentless: bool = False) -> None:
            super().increase_indent(flow, False)

    return yaml.dump(
        export(file),
        Dumper=Indented,
        sort_keys=False,
        allow_unicode=True,
        explicit_start=True,
        width=78,
    )


def as_python(number: int, lines: int) -> str:
    """A Python module of about that many lines, laid out as black wants it."""
    parts = [f'"""Module {number}."""\n']
    written = 1
    while written < lines:
        parts.append(
            f"\n\ndef step_{written}(wall, rate, held={number}):\n"
            f'    """Return the time of step {written}."""\n'
            f'    limits = {{"heating": wall * 25.4, "cooling": rate / {written}}}\n'
            "    longest = max(limits.values())\n"
            "    if longest > 100 and held:\n"
            "        return [name for name, limit in limits.items() if limit == longest]\n"
            "    return [held, *sorted(limits)]\n"
        )
        written += 9
    return "".join(parts)


def write(folder: str, count: int, *, twins: bool = False) -> None:
    """Writes that many specifications into the folder, and on request their YAML twins and Python
    modules of as many lines."""
    os.makedirs(folder, exist_ok=True)
    for number in range(count):
        spec = text(number)
        _save(os.path.join(folder, f"s{number:05}.hts"), spec)
        if twins:
            _save(os.path.join(folder, f"s{number:05}.yaml"), as_yaml(spec))
            _save(os.path.join(folder, f"s{number:05}.py"), as_python(number, spec.count("\n")))


def _save(path: str, content: str) -> None:
    with open(path, "w", encoding="utf-8", newline="\n") as file:
        file.write(content)
