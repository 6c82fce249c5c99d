"""Pipes and surfaces the tests of the field have in common."""

from hts.science.field.mesh import mesh
from hts.science.field.metal import tabulated
from hts.science.field.model import Model
from hts.science.field.pipe import straight
from hts.science.field.surfaces import Bore, Cover, Place, Zone

#: 9Cr as a table for these tests alone: straight lines, constant beyond.
NINE_CHROME = tabulated(
    "9Cr",
    7700.0,
    [(20, 26), (100, 27), (200, 28), (300, 28), (400, 29), (500, 30), (600, 30), (800, 30)],
    [(20, 440), (100, 480), (200, 510), (300, 550), (400, 630), (500, 660), (600, 770),
     (700, 860), (780, 950)],
)  # fmt: skip
#: Carbon steel at 621 degC by the formula of EN 1993-1-2.
AT_621 = tabulated("carbon steel at 621 degC", 7850.0, [(20, 33.3)], [(20, 600)])


def arcs(count: int, half_band: float, gap: float = 0.0) -> list[Zone]:
    """Zones of equal arcs, the first at 12:00, each followed on the weld; `gap` in degrees."""
    if count == 1:
        return [Zone("1", -half_band, half_band, follows=Place(0.0, 0.0))]
    width = 360.0 / count
    return [
        Zone(str(k + 1), -half_band, half_band, k * width - (width - gap) / 2.0,
             k * width + (width - gap) / 2.0, Place(k * width, 0.0))
        for k in range(count)
    ]  # fmt: skip


def heated(
    outer=0.4572,
    wall=0.0254,
    metal=AT_621,
    *,
    band,
    zones=2,
    air=12.0,
    lean=0.7,
    emissivity=0.8,
    beyond=0.3,
    gap=0.0,
    half_length=1.5,
    **grid,
):
    """A pipe with a `band` m wide, outside loss 3 to `beyond` m past it and 25 from there on."""
    pipe = straight(outer, wall, metal, half_length=half_length)
    reach = band / 2.0 + beyond
    places = (2 * wall, band / 2.0, reach, *grid.pop("places", ()))
    settings = {"fine_to": max(0.3, band / 2.0), "cells_round": 24, **grid}
    return Model(
        pipe,
        mesh(pipe, places=places, **settings),
        bore=[Bore(air, lean, emissivity)],
        cover=[Cover(3.0, end=reach), Cover(25.0, start=reach)],
        zones=arcs(zones, band / 2.0, gap),
    )
