"""Published formulas of the trade, each with its source: pure functions of SI floats, a file a subject.

An argument outside the range in which a formula holds raises `bounds.OutOfRange`, which says which argument, its value
and the range. Pressures say in their names whether they are gauge or absolute; temperatures are in kelvin, a `rise` is
a difference of temperatures; angles are in radians and speeds of turning in radians a second.

`names.py` is the table of what a formula in a rule may call. `SOURCES.md` lists every function with the book that it is
taken from, the published values that it is tested against, and the largest difference found.

These are planning figures: they approve nothing.
"""
