"""Where a branch meets its run: the saddle curve of two cylinders, and lengths along them.

crossing  the curve, and places at a distance from it on either surface
"""
