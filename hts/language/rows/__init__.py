"""Weld lists: the rows of a table read into joints.

A row becomes a joint exactly as if it had been written out: its cells are put behind the words that
their columns lead to, and read by the reader of the language. Places are those of the cells.
"""
