"""A repository to put settings into."""

from pathlib import Path

import pytest


@pytest.fixture
def root(tmp_path: Path) -> Path:
    (tmp_path / ".git").mkdir()
    (tmp_path / "a" / "b").mkdir(parents=True)
    return tmp_path
