"""What is predicted inside the wall, in the browser and in copies."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.checking.rules.examples import changed
from hts.generate import ROOT
from hts.predict.told import LIMITS, NOT_FOR, PREDICTION
from hts.view.checked import Checked
from hts.view.export import exported
from hts.view.shelf import Shelf
from hts.view.site import Site
from tests.view.reader import Reader

LINE = "  rate margin  "
ASKED = (LINE, f"  predict soak band within 690 .. 730 degC\n{LINE}")


@pytest.fixture
def few(monkeypatch: pytest.MonkeyPatch) -> None:
    """A few samples do: what is shown is looked at, not the figures."""
    monkeypatch.setattr("hts.predict.foresee.SAMPLES", 4)


def test_the_page_of_a_text_leads_there_and_works_nothing_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("hts.view.predictions.Predictions.work", lambda self: pytest.fail("asked"))
    (tmp_path / "a.hts").write_text(changed("butt", ()))
    site = Site(Shelf(str(tmp_path / "a.hts")))
    [key] = site.shelf.keys
    page = Reader(site.answer(["spec", key], {}, "n").body.decode())
    assert f"/predicted/{key}" in [a.get("href") for a in page.elements("a")]
    assert "never evidence" in page.text
    # A copy of a text that asks for none holds none.
    assert "redicted" not in Reader(exported(Checked(str(tmp_path / "a.hts")), "inspector")).text


def test_the_page_shows_all_of_it_and_a_moment_for_the_slider(tmp_path: Path, few: None) -> None:
    path = tmp_path / "a.hts"
    path.write_text(changed("butt", (ASKED,)))
    site = Site(Shelf(str(path)))
    [key] = site.shelf.keys
    _, checked = site.shelf.checked(key)
    first = site.answer(["state", "predicted", key], {}, "n").body
    predictions = site._predictions(key, "")
    assert predictions._thread is not None
    predictions._thread.join()
    assert site.answer(["state", "predicted", key], {}, "n").body != first
    page = Reader(site.answer(["predicted", key], {}, "n").body.decode())
    for words in (PREDICTION, *LIMITS, *NOT_FOR, "quick estimate", "Size heaters and supply"):
        assert " ".join(words.split()) in page.text
    outlook = predictions.found["W12/stress-relief"]
    assert not isinstance(outlook, str)
    shown = outlook.course.moments
    assert {outlook.course.ramp_end, outlook.course.hold_end} <= set(shown)
    assert 20 <= len(shown) <= 30 and shown[0] == 0
    assert len([a for _, a in page.found if "data-moment" in a]) == len(shown)
    assert [a["max"] for a in page.elements("input")] == [str(len(shown) - 1)]
    # Saved with an error: nothing of the old text stays.
    path.write_text(changed("butt", (ASKED,)) + "\njoint {\n")
    predictions = site._predictions(key, "")
    assert predictions._thread is not None
    predictions._thread.join()
    page = Reader(site.answer(["predicted", key], {}, "n").body.decode())
    assert "There is no prediction: the text has errors" in page.text
    assert checked.case is not None and not page.elements("svg")


def test_a_copy_has_a_strip_of_stages_where_the_text_asks(tmp_path: Path, few: None) -> None:
    path = tmp_path / "a.hts"
    path.write_text(changed("butt", (ASKED,)))
    text = exported(Checked(str(path)), "supervisor")
    page = Reader(text)
    assert "predicted" in [a["id"] for a in page.elements("section")]
    assert "#predicted" in [a.get("href") for a in page.elements("a")]
    assert not page.elements("script") and not page.elements("input")
    for words in (PREDICTION, *NOT_FOR):
        assert " ".join(words.split()) in page.text
    assert "predicted: stages" in page.text
    assert text == exported(Checked(str(path)), "supervisor")


def test_what_cannot_be_predicted_says_why() -> None:
    checked = Checked(str(Path(ROOT, "specs/branch-unequal.hts")))
    page = Reader(exported(checked, "supervisor", predict=True))
    assert "There is no prediction: the model knows girth butts of pipes, not a branch" in page.text


def test_what_is_not_installed_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def missing(case: object) -> None:
        raise ModuleNotFoundError("No module named 'scipy'", name="scipy.linalg")

    monkeypatch.setattr("hts.predict.foresee.treatments_of", missing)
    path = tmp_path / "a.hts"
    path.write_text(changed("butt", ()))
    text = exported(Checked(str(path)), "supervisor", predict=True)
    assert "pip install" in text and "hts[predict]" in Reader(text).text
