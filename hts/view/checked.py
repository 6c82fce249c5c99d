"""A text checked, compiled and explained once for all pages that show it."""

from __future__ import annotations

import datetime
import os
from collections.abc import Callable, Iterable, Mapping
from functools import cached_property

from hts.base.findings import Finding
from hts.base.text import Source
from hts.base.text.reading import Unreadable, root_of
from hts.checking.checker.fault import fault
from hts.checking.checker.results import PackError
from hts.checking.checker.run import check_case, check_spec
from hts.checking.configuration import Configuration, ConfigurationError
from hts.checking.configuration import load as configuration_for
from hts.checking.govern.case import Case
from hts.editor.look import OpenTexts, stamp
from hts.editor.place import Text
from hts.editor.reasons import Reason
from hts.job.compiler import CannotCompile, Job, compile_spec, with_warnings
from hts.job.compiler.fingerprint import fingerprint, grouped
from hts.job.explain import why
from hts.language.model import Spec

#: Path -> what told it from its other states when it was read.
Stamps = Mapping[str, tuple[int, ...]]

#: Joints that one page can show; of more it shows one, and a list of all.
FEW = 6


def unchanged(stamps: Stamps) -> bool:
    """Whether nobody has written any of these files since."""
    return all(stamp(path) == was for path, was in stamps.items())


def day_of(configured: Configuration) -> str:
    """The day that is judged by."""
    return configured.today or datetime.date.today().isoformat()


class Checked:
    """Everything about one text at one moment.

    `refused` says why it could not be read or checked at all; then there is no `case`. What takes
    long is worked out when it is first asked for.
    """

    def __init__(self, path: str, config: str | None = None) -> None:
        """`config` is the path of the settings; by default the nearest."""
        self.path = path
        self.at = datetime.datetime.now()
        self.refused = ""
        self.case: Case | None = None
        self.findings: list[Finding] = []
        self.faults: list[str] = []
        self.configured = Configuration()
        self._day = self.today
        self._stamps: dict[str, tuple[int, ...]] = {path: stamp(path)}
        self._loader = OpenTexts(root_of(path), {})
        self._kept: dict[str, object] = {}
        try:
            self.configured = configuration_for(path, config)
            self._day = self.today
            source = self._loader.read(path)
            case = Case(Spec(source, self._loader, self.configured.defaults), self.today)
            self.findings = check_case(case, self.configured.setting)
            self.faults = list(case.faults)
            self.case = case
        except (Unreadable, ConfigurationError, PackError) as error:
            self.refused = str(error)
        except Exception as error:
            if os.environ.get("HTS_DEBUG"):
                raise
            self.refused = fault(error)
        if self.configured.path is not None:
            settings = os.path.abspath(self.configured.path)
            self._stamps[settings] = stamp(settings)
        self._stamps |= self._loader.asked

    @property
    def today(self) -> str:
        """The day waivers and calibrations are judged on."""
        return day_of(self.configured)

    @property
    def files(self) -> Iterable[str]:
        """The files it rests on: the text, what it uses, its settings."""
        return self._stamps

    @property
    def stamps(self) -> Stamps:
        """The same, each with what tells that it was written."""
        return self._stamps

    def holds(self) -> bool:
        """Whether no file it rests on has changed since, and the day is the same."""
        return unchanged(self._stamps) and self.today == self._day

    @property
    def errors(self) -> list[Finding]:
        return [finding for finding in self.findings if finding.severity == "error"]

    def kept(self, name: str, make: Callable[[], object]) -> object:
        """What was made of it under a name, made when it is first asked for."""
        if name not in self._kept:
            self._kept[name] = make()
        return self._kept[name]

    @cached_property
    def text(self) -> Text:
        """The text with what stands where. Only where it could be read."""
        assert self.case is not None
        return Text(self.case.spec.source)

    @cached_property
    def compiled(self) -> tuple[Job | None, tuple[str, ...]]:
        """The job, or why there is none."""
        if self.case is None:
            return None, (self.refused,)
        if self.errors:
            return None, (_counted(self.errors),)
        return self._compiled()

    @cached_property
    def of_a_run(self) -> tuple[Job | None, tuple[str, ...]]:
        """The job of a run that goes on, or why there is none: the metal is heated whatever errors
        the text has, and is looked at by what it says, unless that cannot be made out."""
        if self.case is None:
            return None, (self.refused,)
        lost = [finding for finding in self.case.spec.findings if finding.severity == "error"]
        if lost:
            return None, (f"{_counted(lost)} of the language",)
        return self._compiled()

    def _compiled(self) -> tuple[Job | None, tuple[str, ...]]:
        assert self.case is not None
        try:
            return with_warnings(compile_spec(self.case.spec), self.findings), ()
        except CannotCompile as error:
            return None, tuple(error.reasons)
        except Exception as error:
            if os.environ.get("HTS_DEBUG"):
                raise
            return None, (fault(error),)

    @property
    def job(self) -> Job | None:
        return self.compiled[0]

    def chosen(self, joint: str = "") -> tuple[str, ...]:
        """The joint a page shows where there are too many for one page: the one named, else the
        first; nothing where all are shown."""
        names = self.joints
        if len(names) <= FEW:
            return ()
        return (joint if joint in names else names[0],)

    @property
    def joints(self) -> list[str]:
        """The joints the text is about."""
        return [joint.name for joint in self.case.joints()] if self.case is not None else []

    def answers(self, joints: tuple[str, ...] = ()) -> list[why.Answer]:
        """Every value the rules give, with its reason; with names, of these joints alone."""
        made = self.kept(f"answers {joints}", lambda: self._answers(joints))
        assert isinstance(made, list)
        return made

    def _answers(self, joints: tuple[str, ...]) -> list[why.Answer]:
        if self.case is None:
            return []
        try:
            return list(why.every(self.case, joints))
        except Exception as error:
            # What cannot be explained is told, and hides nothing else.
            if os.environ.get("HTS_DEBUG"):
                raise
            self.faults.append(f"the reasons could not be worked out: {fault(error)}")
            return []

    def reasons(self, joints: tuple[str, ...] = ()) -> list[Reason]:
        """The same as the text shows it."""
        return [
            Reason(a.address, a.quantity, a.heading, why.text([a])) for a in self.answers(joints)
        ]

    @cached_property
    def fingerprint(self) -> str:
        """What stands on its papers; "" where that cannot be told."""
        if self.case is None:
            return ""
        try:
            return grouped(fingerprint(self.case.spec, self.case.authorities))
        except Exception:
            if os.environ.get("HTS_DEBUG"):
                raise
            return ""

    def checked_as(self, text: str) -> list[Finding]:
        """The findings the text would have if it read otherwise."""
        assert self.case is not None
        own = self.case.spec.source
        other = Spec(
            Source(text, own.name, own.path), self.case.spec.loader, self.configured.defaults
        )
        return check_spec(other, self.today, self.configured.setting)


def _counted(errors: list[Finding]) -> str:
    return f"the text has {len(errors)} error{'s' if len(errors) > 1 else ''}"
