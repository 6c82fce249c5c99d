"""The compiled job: a specification with every value worked out, exact, and its reason.

Only values are made here; how they look on paper is the business of `hts.job.outputs`.
"""

from hts.job.compiler.errors import CannotCompile
from hts.job.compiler.job import Job, JointSheet, compile_spec, with_warnings

__all__ = ["CannotCompile", "Job", "JointSheet", "compile_spec", "with_warnings"]
