"""Predictions worked out beside all else, each once for however many pages show it."""

from __future__ import annotations

import os
import threading
from typing import TYPE_CHECKING

from hts.checking.checker.fault import fault
from hts.view.checked import Checked

if TYPE_CHECKING:
    from hts.predict.outlook import Outlook

#: What a prediction cannot be made without, and does not come with the rest.
NEEDED = ("contourpy", "numpy", "scipy")
MISSING = 'numpy and scipy are not installed; run: pip install "hts[predict]"'


class Predictions:
    """Those of one state of a text: address of a treatment -> outlook, or why there is none."""

    def __init__(self, checked: Checked, joints: tuple[str, ...] = (), name: str = "") -> None:
        """`joints` are those to be predicted; all without names. `name` tells this state of the
        text from others."""
        self.checked = checked
        self._name = name
        self.joints = joints
        self.found: dict[str, Outlook | str] = {}
        self.finished = False
        #: Why nothing can be predicted at all.
        self.refused = ""
        self._thread: threading.Thread | None = None

    @property
    def state(self) -> str:
        """Another word whenever there is more to show."""
        return f"{self._name}.{len(self.found)}.{int(self.finished)}"

    def begin(self) -> None:
        """Has them worked out, and returns at once."""
        if self._thread is None:
            self._thread = threading.Thread(target=self.work, daemon=True)
            self._thread.start()

    def work(self) -> None:
        """Works them out, and waits for it."""
        os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
        try:
            self._work()
        except Exception as error:
            missing = (getattr(error, "name", None) or "").partition(".")[0]
            if isinstance(error, ModuleNotFoundError) and missing in NEEDED:
                self.refused = MISSING
            elif os.environ.get("HTS_DEBUG"):
                raise
            else:
                self.refused = fault(error)
        finally:
            self.finished = True

    def _work(self) -> None:
        from hts.predict.foresee import foresee, treatments_of

        case = self.checked.case
        if case is None or self.checked.errors:
            self.refused = "the text has errors" if case is not None else self.checked.refused
            return
        for treatment in treatments_of(case):
            if not self.joints or treatment.joint.name in self.joints:
                self.found[treatment.address] = foresee(case, treatment)
