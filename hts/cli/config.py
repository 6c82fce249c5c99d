"""`hts config`: what is configured, and where."""

from __future__ import annotations

import json
import os
from typing import Any

import click

from hts.base.text.json_text import json_text
from hts.checking.configuration import Configuration
from hts.checking.configuration.keys import AS_FITS, KEYS
from hts.checking.report.terminal import printable_lines
from hts.cli.configured import config_option, configuration

_DEFAULT = "default"


@click.command("config")
@click.argument("path", required=False, default=".", metavar="[PATH]")
@config_option
@click.option(
    "--format",
    "output_format",
    type=click.Choice(["text", "json"]),
    default="text",
    help="Format of the answer.",
)
def command(path: str, config: str | None, output_format: str) -> None:
    """Print the settings in force for a file or folder, and where each is set.

    The nearest `hts.toml`, or `pyproject.toml` with `[tool.hts]`, counts: of PATH's folder or one
    above it, up to the root of the repository. Files are not merged. What is printed as text can
    stand in an `hts.toml`.
    """
    made = configuration(path, config)
    values = _values(made)
    if output_format == "json":
        data = {
            "values": {
                name: {
                    "value": value,
                    "origin": made.origin.get(name, _DEFAULT),
                    "meaning": (KEYS.get(name) or KEYS["severity"]).doc,
                }
                for name, value in values.items()
            },
            "left_out": sorted(made.ignored),
        }
        click.echo(json_text(data), nl=False)
        return
    shown = {name: f"{name} = {_toml(value)}" for name, value in values.items()}
    widest = max(map(len, shown.values()))
    lines = [
        f"{line:<{min(widest, 60)}}  # {made.origin.get(name, _DEFAULT)}"
        for name, line in shown.items()
    ]
    if made.ignored:
        lines.append(f"# left out: {', '.join(sorted(made.ignored))}")
    click.echo(printable_lines("\n".join(lines)), nl=False)


def _values(made: Configuration) -> dict[str, Any]:
    """Every value by its key, as it can be written."""
    from hts.paper.labels import Grid

    values: dict[str, Any] = {
        "select": list(made.select),
        "ignore": list(made.ignore),
        **{f"severity.{rule}": severity for rule, severity in made.severity.items()},
        "exclude": list(made.exclude),
        "books": [
            f"{named.book} edition {named.edition}" if named.edition else named.book
            for named in made.books
        ],
        "rule-packs": list(made.rule_packs),
        # Nothing stands for the clock's day, which holds where none is set.
        **({"today": made.today} if made.today else {}),
        "paper.units": made.units or "SI",
        "paper.sheet": made.sheet,
        "paper.company": made.company,
        "paper.logo": made.logo,
        "paper.font": "" if made.font is None else os.path.basename(made.font.path),
    }
    grid = {**Grid()._asdict(), **made.labels}
    for name in KEYS:
        if name.startswith("labels."):
            field = name.removeprefix("labels.").replace("-", "_")
            values[name] = _label(field, grid[field])
    return values


def _label(field: str, value: float) -> int | str:
    if field in ("columns", "rows", "copies"):
        return int(value)
    if field in ("width", "height") and not value:
        return AS_FITS
    return f"{value:g} mm"


def _toml(value: Any) -> str:
    """A value in TOML, whose strings, numbers and lists are written as in JSON."""
    return json.dumps(value, ensure_ascii=False)
