"""Files of settings, written for a test."""

from pathlib import Path


def put(folder: Path, text: str, name: str = "hts.toml") -> str:
    (folder / name).write_text(text, "utf-8", newline="")
    return str(folder)
