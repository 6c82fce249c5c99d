"""The tests a pack has of its own."""

import pytest
from tern_rules import RULES

from hts.plugin.testing import BASES, check_examples, findings


def test_examples() -> None:
    check_examples(RULES)


@pytest.mark.parametrize("title", ["Header butt", "header of tern island"])
def test_titles(title: str) -> None:
    (found,) = findings(RULES, BASES["butt"].replace("Tern Island (invented): header butt", title))
    assert found.kind.name == "title-without-plant"
