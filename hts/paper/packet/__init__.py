"""The packet that goes to the pipe: one PDF for each joint, or for joints heated together.

files    the name and bytes of each packet of a compiled job
"""

from hts.paper.packet.packet_files import files

__all__ = ["files"]
