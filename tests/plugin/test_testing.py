"""`check_examples` finds what is wrong with the examples of a pack, and says which one it is."""

from __future__ import annotations

from typing import Any

import pytest

from hts.plugin import Bad, Case, Good, Joint, PackError, Rule
from hts.plugin.testing import BASES, check_examples, findings
from tests.rows import each_row

TITLE = "Tern Island (invented): header butt"
NO_PLANT = Bad(((TITLE, "Header butt"),), at="Header butt", says="title … plant")


def rule(number: int = 1, **changed: Any) -> Rule:
    """Titles begin with the plant."""
    asked: dict[str, Any] = {
        "summary": "A title without its plant.", "why": "Papers are filed by plant.",
        "fix": "Begin with the plant.", "source": "common practice, no source", "basis": "practice",
        "bad": (NO_PLANT,), "good": (Good((("header butt", "outlet header"),)),),
    }  # fmt: skip
    made = Rule(f"TI00{number}", f"no-plant-{number}", "warning", **asked | changed)

    @made.for_spec
    def check(case: Case) -> None:
        job = case.spec.file.job
        assert job is not None
        if not job.name.startswith("Tern Island"):
            at = job.place("name")
            case.add(made.found("the title begins without the plant", at, address="job"))

    return made


def test_sound_examples_pass() -> None:
    check_examples([rule()])
    check_examples([rule(bad=(NO_PLANT._replace(says=""), NO_PLANT._replace(says="plant")))])


BOTH = (TITLE, "Header butt"), ("girth butt", "girth but")


@each_row(
    ("changed", "told"),
    [
        ({"good": (Good(()), Good(((TITLE, "Header"),)))},
         "TI001 no-plant-1, example 3 is good, but it has <TI001 example.hts:3:5"),
        ({"bad": (Bad((), at="x"),)},
         "TI001 no-plant-1, example 1 is to break this rule once, it breaks []"),
        ({"bad": (NO_PLANT, NO_PLANT._replace(at="Tern"))},
         "TI001 no-plant-1, example 2 is to be found at 'Tern', it is at '\"Header butt\"'"),
        ({"bad": (NO_PLANT._replace(says="plant … title"),)},
         "TI001 no-plant-1, example 1 is to say 'title', it says "
         "'the title begins without the plant'"),
        ({"bad": (NO_PLANT._replace(says="title … title"),)},
         "TI001 no-plant-1, example 1 is to say 'title', it says"),
        ({"good": (Good((("girth butt", "girth but"),)),)},
         "TI001 no-plant-1, example 2 has a finding of hts: <"),
        ({"bad": (NO_PLANT._replace(changes=BOTH),)},
         "TI001 no-plant-1, example 1 has a finding of hts: <"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_an_example_is_told(changed: dict[str, Any], told: str) -> None:
    with pytest.raises(AssertionError) as caught:
        check_examples([rule(**changed)])
    assert str(caught.value).startswith(told)


def test_another_rule_of_the_pack_is_not_to_be_broken() -> None:
    with pytest.raises(AssertionError) as caught:
        check_examples([rule(1), rule(2)])
    assert str(caught.value).startswith(
        "TI001 no-plant-1, example 1 is to break this rule once, it breaks "
        "['no-plant-1', 'no-plant-2']"
    )


def test_what_is_no_rule_is_refused() -> None:
    with pytest.raises(PackError, match="the pack does not give a list of rules but 5"):
        check_examples(5)  # type: ignore[arg-type]
    with pytest.raises(PackError, match="what has no source is of basis practice"):
        check_examples([rule(basis="memory")])


def test_findings_are_those_of_the_pack_alone_in_their_order() -> None:
    text = BASES["butt"].replace(TITLE, "Header butt").replace("girth butt", "girth but")
    found = findings([rule(2), rule(1)], text)
    assert [each.kind.code for each in found] == ["TI001", "TI002"]
    assert findings([rule()], BASES["butt"]) == []


def test_a_rule_that_fails_is_told() -> None:
    made = Rule("TI009", "fails", "advice", summary="s", why="w", fix="f", source="common practice,"
                " no source", basis="practice", bad=(Bad((), at=""),))  # fmt: skip

    @made.for_joint
    def check(case: Case, joint: Joint) -> None:
        raise ZeroDivisionError("nothing there")

    with pytest.raises(AssertionError, match="nothing there"):
        findings([made], BASES["butt"])


def test_the_day_of_an_example_is_the_one_it_names() -> None:
    made = Rule("TI008", "past", "advice", summary="s", why="w", fix="f", source="common practice, "
                "no source", basis="practice", bad=(Bad((), at="", today="2030-01-02"),),
                good=(Good((), today="2030-01-01"),))  # fmt: skip

    @made.for_joint
    def check(case: Case, joint: Joint) -> None:
        if case.past("2030-01-01"):
            case.add(made.found("too late", joint.entry.place(), address=joint.name))

    try:
        check_examples([made])
    except AssertionError as error:
        # The example specification has certificates that end before that day.
        assert str(error).startswith("TI008 past, example 1 has a finding of hts")
    assert findings([made], BASES["butt"], "2030-01-01") == []
    assert len(findings([made], BASES["butt"], "2030-01-02")) == 1
