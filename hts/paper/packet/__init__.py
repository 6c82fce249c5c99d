"""The packet that goes to the pipe: one PDF for each joint, or for joints heated together.

files    the name and bytes of each packet of a compiled job
PARTS    what a packet has: the part for the pipe, and the part for the file
"""

from hts.paper.packet.packet_files import PARTS, files

__all__ = ["PARTS", "files"]
