"""Pictures of what is predicted: outside and bore unrolled, the section, traces, stages in time."""

from hts.paper.predicted.picture_files import files

__all__ = ["files"]
