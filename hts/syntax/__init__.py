"""From text to a lossless tree, with every error of the text found in one pass."""

from hts.syntax.lalr import Token
from hts.syntax.parser import items_of, parse
from hts.syntax.tree import Block, Entry, Group, Tree

__all__ = ["Block", "Entry", "Group", "Token", "Tree", "items_of", "parse"]
