"""The files of a judged record."""

from __future__ import annotations

import os
from collections.abc import Callable, Collection
from typing import TYPE_CHECKING

from hts.job.outputs.text import visible
from hts.paper.sheet import A4, Size
from hts.record.judging import Judgement, document

if TYPE_CHECKING:
    from hts.record.expected.comparison import Comparison

#: mm; a page on its side without its margins.
_CHART = (271.0, 150.0)
#: Dots an inch of the picture: 1,600 across, as wide as a screen.
_DOTS = 150.0
_TEMPLATE = os.path.join(os.path.dirname(__file__), "templates", "chart.typ")


def _json(judgement: Judgement, size: Size) -> bytes:
    return document.write(judgement).encode()


def _svg(judgement: Judgement, size: Size) -> bytes:
    from hts.record.handover.chart import chart

    return chart(judgement, _CHART).encode()


def _png(judgement: Judgement, size: Size) -> bytes:
    from hts.paper.sheet.typeset import png

    width, height = _CHART
    svg = _svg(judgement, size).decode()
    return png(_TEMPLATE, {"width": width, "height": height, "svg": svg}, _DOTS)


def _pdf(judgement: Judgement, size: Size) -> bytes:
    from hts.record.handover.report import report

    return report(judgement, size)


def _xlsx(judgement: Judgement, size: Size) -> bytes:
    from hts.record.handover.workbook import workbook

    return workbook(judgement, size)


#: Kind -> how its file is made.
KINDS: dict[str, Callable[[Judgement, Size], bytes]] = {
    "json": _json,
    "pdf": _pdf,
    "png": _png,
    "svg": _svg,
    "xlsx": _xlsx,
}


def files(
    judgement: Judgement,
    kinds: Collection[str],
    size: Size = A4,
    comparison: Comparison | str | None = None,
) -> dict[str, bytes]:
    """Name -> bytes: `W12-stress-relief-record.pdf`. With a `comparison` report and JSON have a
    section on it, and it is a picture beside the chart. Raises MissingPackage."""
    stem = visible(f"{judgement.plan.joint}-{judgement.plan.name}-record").replace("/", "_")
    if comparison is None:
        return {f"{stem}.{kind}": KINDS[kind](judgement, size) for kind in kinds}
    made = {f"{stem}.{kind}": KINDS[kind](judgement, size) for kind in kinds if kind != "pdf"}
    from hts.record.expected.plot import picture
    from hts.record.handover.report import report

    if "json" in kinds:
        from hts.record.expected.json_form import predicted

        made[f"{stem}.json"] = document.write(judgement, predicted(comparison)).encode()
    if "pdf" in kinds:
        made[f"{stem}.pdf"] = report(judgement, size, comparison)
    if f"{stem}.svg" in made and not isinstance(comparison, str):
        plan = judgement.plan
        svg = picture(comparison, plan.job.document, f"{plan.joint}: {plan.name}", _CHART)
        made[f"{stem}-predicted.svg"] = svg.encode()
    return made
