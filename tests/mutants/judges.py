"""Which tests judge a file: its own first, then those of its room, and no others: what only tests
of another room would notice is not noticed."""

from __future__ import annotations

from pathlib import Path

#: Data is judged where its figures are compared with the page they come from.
_OF_DATA = {
    "hts/base/data/books": ["tests/limits"],
    "hts/base/data/grades.yaml": ["tests/checking/rules", "tests/limits", "tests/base"],
    "hts/base/data/pipe.yaml": ["tests/science/tables", "tests/checking/rules", "tests/base"],
    "hts/base/data/thermocouples.yaml": ["tests/science/thermocouples", "tests/limits"],
}


def judges(root: Path, path: str) -> list[list[str]]:
    """Lists of arguments for pytest, tried one after the other until a test fails."""
    for start, tests in _OF_DATA.items():
        if path.startswith(start):
            return [[t] for t in tests if (root / t).exists()]
    parts = Path(path).with_suffix("").parts[1:]
    rounds: list[list[str]] = []
    if parts[:2] == ("checking", "rules") and len(parts) > 2:
        words = parts[-1].replace("_", "-")
        rounds.append(["tests/checking/rules/test_rules.py", "-k", words])
    for depth in range(len(parts), 0, -1):
        folder = root.joinpath("tests", *parts[:depth])
        own = folder.parent / f"test_{folder.name}.py"
        if own.exists():
            rounds.append([str(own.relative_to(root))])
        if folder.is_dir():
            rounds.append([str(folder.relative_to(root))])
            break
    if parts[0] in ("job", "paper"):
        rounds.append(["tests/paper/test_from_text_to_cell.py"])
    return rounds or [["tests/test_api.py"]]
