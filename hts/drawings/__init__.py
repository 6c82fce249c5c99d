"""Drawings of a compiled job: the joint unrolled, its section, the cycle. One SVG each."""
