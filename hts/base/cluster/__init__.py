"""Work shared out over the machines of a Dask cluster.

connected    within, the work of `each` goes to the workers of a scheduler
each         what comes of units of work, in their order: here, or there
laid_out     the files a unit needs, on a machine that does not have them

A unit is a function of the program and what it is put to: plain data that says all it hangs on, so
that it comes out the same wherever it is done, and as often as need be. A scheduler and its workers
run what they are sent, and what they answer is taken: both have to be trusted.
"""

from hts.base.cluster.files import Files, Laid, laid_out
from hts.base.cluster.spread import ClusterError, connected, each, is_connected

__all__ = ["ClusterError", "Files", "Laid", "connected", "each", "is_connected", "laid_out"]
