"""From entries to a specification with its names resolved."""

from hts.model.load import Loader
from hts.model.spec import Spec

__all__ = ["Loader", "Spec"]
