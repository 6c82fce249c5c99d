"""What the rules on predictions tell of figures made up for each: what is predicted takes seconds,
and its physics is held in tests/science/field."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from hts.checking.checker.run import judged_by
from hts.checking.govern.case import Case
from hts.checking.govern.foreseen import Answer, Foreseen, ShortZone, Unforeseen, foreseen
from hts.checking.rules.catalogue import rules
from hts.checking.rules.examples import changed
from hts.language.model import Spec
from hts.language.model.joint import Treatment
from tests import told
from tests.texts import spec_of

KEPT = Path(__file__).with_name("told") / "predicted.txt"
RULES = [rule for rule in rules() if rule.family == "predicted"]
_LINE = "  rate margin  "
_ASKED = (_LINE, f"  predict soak band within 690 .. 730 degC\n{_LINE}")
_PIPE = (
    "  between    pipe and pipe\n  pipe       NPS 12 schedule 120\n  wall       25.4 mm measured\n",
    "  side       upstream of pipe NPS 12 wall 17.5 mm measured\n"
    "  side       downstream of pipe NPS 12 wall 25.4 mm measured\n",
)
_OWNER = "  requires spare for controlling thermocouples"
_WANTED = (_OWNER, f"  requires predicted soak band when t > 20 mm\n{_OWNER}")
#: Who asks: the job, for each thing of it; a procedure, of this wall and of another; nobody.
TEXTS = {
    "asked": changed("butt", (_ASKED,)),
    "two walls": changed("butt", (_ASKED, _PIPE)),
    "lag": changed("butt", ((_LINE, f"  predict lag at most 3 h\n{_LINE}"),)),
    "gradient": changed("butt", ((_LINE, f"  predict axial gradient at most 25 K\n{_LINE}"),)),
    "confidence": changed("butt", ((_LINE, f"  predict confidence 50 %\n{_LINE}"),)),
    "procedure": changed("procedure", (_WANTED,)),
    "other wall": changed("procedure", ((_WANTED[0], _WANTED[1].replace("20 mm", "30 mm")),)),
    "nobody": changed("butt", ()),
    "bake": changed("bake", ()),
}
#: In range, with each end of the band just so far in that no rule tells.
_PLAIN = Foreseen(
    (), window=(690.0, 730.0), target=715.0, lowest=(702.0, 695.1, 706.0), coldest="6:00, inside",
    highest=(720.0, 716.0, 724.0), hottest="3:00, outside", share=0.9, minutes=(100.0, 120.0),
    cure=700.0, left=12.0, heated=600.0, first="bore", margin=(20.0, 10.0), critical="805 degC",
    unwatched=(True, False), wanted=0.9, lined=False, dip=25.0, sides=4.9,
    bore="open and closed", bore_known=True, short=(ShortZone("top", 9000.0, 14.9),),
)  # fmt: skip
_COLD = {"share": 0.89, "lowest": (695.0, 689.9, 700.0)}
_REASON = "the steel is not known"
FIGURES: dict[str, dict[str, Any]] = {
    "plain": {},
    "reason": {},
    "nearer": {"lowest": (702.0, 695.0, 706.0)},
    "nearer, watched": {"lowest": (702.0, 695.0, 706.0), "unwatched": (False, True)},
    "nearer, out of range": {"lowest": (702.0, 695.0, 706.0), "share": 0.89},
    "cold": _COLD,
    "cold in few cases": {**_COLD, "share": 0.9},
    "just at the end": {**_COLD, "lowest": (695.0, 690.0, 700.0)},
    "cold, wide enough": {**_COLD, "cure": 600.0},
    "cold, bore not known": {**_COLD, "bore_known": False},
    "no width": {**_COLD, "cure": None},
    "no width, lined": {**_COLD, "cure": None, "lined": True},
    "wanted of all": {**_COLD, "share": 0.94, "wanted": 0.95},
    "hot": {"share": 0.5, "unwatched": (False, True)},
    "hot, no critical": {"share": 0.5, "margin": None},
    "close to critical": {"margin": (15.0, 9.9)},
    "no critical": {"margin": None},
    "gap": {"dip": 25.1},
    "gap, out of range": {"dip": 25.1, "share": 0.5},
    "sides": {"sides": 5.0},
    "short": {"short": (ShortZone("top", 9000.0, 15.0), ShortZone("roof", 4500.0, 55.0))},
}


def _answers(spec: Spec, treatment: Treatment, holds: bool) -> tuple[Answer, ...]:
    """To what a text asks, by the job and by another."""
    entry = treatment.entry
    fields = {"soak band": "predicted_band", "lag": "predicted_lag"}
    own = [what for what, name in fields.items() if getattr(entry, name) is not None]
    at = spec.source.span(0, 6)
    return (
        *(Answer(what, what, "the job", treatment.place(fields[what]), "6 min", holds, True)
          for what in own),
        *(Answer(what, f"{what} of O-1", "O-1", at, "7 min", holds, False)
          for what in ("soak band", "lag", "axial gradient") if spec.file.procedures),
    )  # fmt: skip


def _told(
    text: str, figures: dict[str, Any], holds: bool, reason: str = "", **asked: bool
) -> Iterator[str]:
    spec = spec_of(text)
    case = Case(spec)
    case.predicts = asked.get("predicts", False)
    case.never_predicts = asked.get("never", False)
    for joint in case.joints():
        for treatment in case.treatments(joint):
            found = _PLAIN._replace(**figures, answers=_answers(spec, treatment, holds))
            case._foreseen[treatment.address] = Unforeseen(reason) if reason else found
    judged_by(case, RULES)
    for each in case.report.findings:
        at = " ".join(each.at.span.text.split())[:50]
        beside = [label.span.text[:30] for label in each.others]
        yield (
            f"{each.kind.code} {each.address}: {each.message} | {at} | {each.at.span.start} "
            f"{beside} | {'; '.join(each.notes)}"
        )
    yield from (f"not predicted: {address}" for address in case.unpredicted)


def _message(line: str) -> str:
    return told.without_figures(line.partition("|")[0])


def test_what_is_told_of_figures() -> None:
    shown = {
        f"{figures}, {text}": list(
            _told(TEXTS[text], FIGURES[figures], True, _REASON if figures == "reason" else "")
        )
        for text in ("asked", "two walls", "procedure")
        for figures in FIGURES
    }
    for text in ("lag", "gradient", "confidence", "other wall", "nobody", "bake"):
        for holds in (True, False):
            asked = {"cold": FIGURES["cold"], "sides": FIGURES["sides"]}
            for name, figures in asked.items():
                lines = list(_told(TEXTS[text], figures, holds))
                shown[f"{name}, {text}, {holds}"] = lines
    for text in ("nobody", "bake", "asked"):
        for what in ("predicts", "never"):
            lines = list(_told(TEXTS[text], FIGURES["cold"], True, **{what: True}))
            shown[f"{what}, {text}"] = lines
    shown["missed, procedure"] = list(_told(TEXTS["procedure"], {}, False))
    whole = "\n".join(f"{line} | {name}" for name, lines in shown.items() for line in lines)
    told.each_once(
        KEPT, {"all": whole}, lambda line: told.without_figures(line.split("|")[0]), True
    )


def test_what_is_not_installed_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    missing = {"numpy.linalg": True, "scipy": True, "hts.predict.nowhere": False}

    def load(_: str) -> None:
        raise ModuleNotFoundError(name=name)

    monkeypatch.setattr("hts.checking.govern.foreseen.import_module", load)
    for name, is_told in missing.items():
        if not is_told:
            with pytest.raises(ModuleNotFoundError):
                foreseen(None, None)
            continue
        found = foreseen(None, None)
        assert isinstance(found, Unforeseen)
        assert found.not_installed
        assert found.reason == f'{name} is not installed; run: pip install "hts[predict]"'
