"""How flags lie on a sheet."""

from __future__ import annotations

from typing import NamedTuple

from hts.paper.sheet import A4, Size

#: A flag smaller than this has no room for its lines in letters of 6 points.
LEAST_WIDTH, LEAST_HEIGHT = 34.0, 18.0
_SLACK = 0.01


class GridError(Exception):
    """Flags that do not fit; the message says by how much."""


class Grid(NamedTuple):
    """Rows and columns of flags; lengths in mm. `left` and `top` are the margins before the first
    flag, the gaps lie between two. What is 0 in `width` or `height` is as large as fits. `copies`
    are the flags of each thermocouple, one for each end of its lead; `start` is the place of the
    first flag on a sheet that has been used before, counted by rows from 1."""

    columns: int = 3
    rows: int = 10
    width: float = 0.0
    height: float = 0.0
    left: float = 10.0
    top: float = 12.0
    gap_across: float = 3.0
    gap_down: float = 2.0
    copies: int = 2
    start: int = 1

    def on(self, size: Size) -> Grid:
        """The grid with its flags sized for a sheet. Raises GridError."""
        if self.columns < 1 or self.rows < 1:
            raise GridError("a sheet of labels needs at least one row and one column")
        if self.copies < 1 or not 1 <= self.start <= self.columns * self.rows:
            raise GridError(
                f"labels start at 1 to {self.columns * self.rows}, with one copy or more of each"
            )
        if min(self.left, self.top, self.gap_across, self.gap_down, self.width, self.height) < 0:
            raise GridError("margins, gaps and sizes of labels are not negative")
        width = self.width or _share(size.width, self.left, self.columns, self.gap_across)
        height = self.height or _share(size.height, self.top, self.rows, self.gap_down)
        for what, each, least in (("wide", width, LEAST_WIDTH), ("high", height, LEAST_HEIGHT)):
            if each < least:
                raise GridError(f"labels are {each:.1f} mm {what}; at least {least:g} mm")
        across = self.left + self.columns * width + (self.columns - 1) * self.gap_across
        down = self.top + self.rows * height + (self.rows - 1) * self.gap_down
        for what, taken, there in (("across", across, size.width), ("down", down, size.height)):
            if taken > there + _SLACK:
                raise GridError(
                    f"{self.columns} by {self.rows} labels take {taken:.1f} mm {what}; "
                    f"{size.name} has {there:g} mm"
                )
        return self._replace(width=width, height=height)


def _share(all_of_it: float, margin: float, count: int, gap: float) -> float:
    """The size of one of `count`, with the same margin on both sides."""
    return (all_of_it - 2 * margin - (count - 1) * gap) / count


DEFAULT = Grid().on(A4)
