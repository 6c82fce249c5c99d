"""Which tests judge a file: its own first, then those of its room, and no others: what only tests
of another room would notice is not noticed."""

from __future__ import annotations

from pathlib import Path

#: Data is judged where its figures are compared with the page they come from.
_OF_DATA = {
    "hts/base/data/books": ["tests/limits"],
    "hts/base/data/grades.yaml": ["tests/science/tables"],
    "hts/base/data/pipe.yaml": ["tests/science/tables"],
    "hts/base/data/thermocouples.yaml": ["tests/science/thermocouples"],
}


def judges(root: Path, path: str) -> tuple[str, ...]:
    """Files and folders of tests, for pytest."""
    for start, tests in _OF_DATA.items():
        if path.startswith(start):
            return tuple(t for t in tests if (root / t).exists())
    parts = Path(path).with_suffix("").parts[1:]
    found: list[str] = []
    for depth in range(len(parts), 0, -1):
        folder = root.joinpath("tests", *parts[:depth])
        if folder.is_dir():
            found.append(str(folder.relative_to(root)))
            break
    # What the whole room tells, where its parts have folders of their own.
    told = root.joinpath("tests", parts[0], "test_told.py")
    if told.exists() and f"tests/{parts[0]}" not in found:
        found.append(str(told.relative_to(root)))
    if parts[0] in ("job", "paper"):
        found += ["tests/paper/test_from_text_to_cell.py", "tests/paper/test_both_systems.py"]
    return tuple(found) or ("tests/test_api.py",)
