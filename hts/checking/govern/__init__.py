"""What governs a joint: the facts of the model put to the limits of books and procedures."""

from hts.checking.govern.joint import JointLimits
from hts.checking.govern.sources import Authority, authorities

__all__ = ["Authority", "JointLimits", "authorities"]
