"""Drawings of a compiled job: the joint unrolled, its sections, the cycle. One SVG each."""

from hts.paper.drawings.along_view import section_along
from hts.paper.drawings.card_view import attachment_card
from hts.paper.drawings.cycle_view import cycle_chart
from hts.paper.drawings.section_view import section
from hts.paper.drawings.svg_files import files
from hts.paper.drawings.unrolled_view import unrolled

__all__ = ["attachment_card", "cycle_chart", "files", "section", "section_along", "unrolled"]
