"""The whole file."""

from __future__ import annotations

from hts.language.vocabulary.cycle import Bake, Cycle
from hts.language.vocabulary.declare import Entry, inner
from hts.language.vocabulary.equipment import Controller, PowerSource, Recorder
from hts.language.vocabulary.job import Job, OwnBook, Use, Version, Waive
from hts.language.vocabulary.joint import Joint
from hts.language.vocabulary.material import Filler, Material
from hts.language.vocabulary.preheat import Preheat
from hts.language.vocabulary.procedure import Procedure
from hts.language.vocabulary.results import Results
from hts.language.vocabulary.weld_list import WeldList
from hts.language.vocabulary.work import After, Before, During


class File(Entry):
    """A specification, or a library of things that specifications use."""

    version: Version | None = inner(Version, required=True)
    uses: list[Use] = inner(Use, many=True)
    books: list[OwnBook] = inner(OwnBook, many=True)
    job: Job | None = inner(Job)
    procedures: list[Procedure] = inner(Procedure, many=True)
    materials: list[Material] = inner(Material, many=True)
    fillers: list[Filler] = inner(Filler, many=True)
    weld_lists: list[WeldList] = inner(WeldList, many=True)
    joints: list[Joint] = inner(Joint, many=True)
    preheats: list[Preheat] = inner(Preheat, many=True)
    bakes: list[Bake] = inner(Bake, many=True)
    cycles: list[Cycle] = inner(Cycle, many=True)
    controllers: list[Controller] = inner(Controller, many=True)
    recorders: list[Recorder] = inner(Recorder, many=True)
    power_sources: list[PowerSource] = inner(PowerSource, many=True)
    before: list[Before] = inner(Before, many=True)
    during: list[During] = inner(During, many=True)
    after: list[After] = inner(After, many=True)
    results: list[Results] = inner(Results, many=True)
    waivers: list[Waive] = inner(Waive, many=True)
