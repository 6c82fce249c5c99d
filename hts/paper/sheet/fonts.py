"""The fonts of every paper and drawing. They are shipped, and those of the machine are never used,
so that a page is the same wherever it is made."""

from __future__ import annotations

import os

FAMILY = "Noto Sans"
FOLDER = os.path.join(os.path.dirname(__file__), "fonts")
REGULAR = os.path.join(FOLDER, "NotoSans-Regular.ttf")
BOLD = os.path.join(FOLDER, "NotoSans-Bold.ttf")
