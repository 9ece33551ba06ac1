"""The space of all valid builds, in integers: it takes tables and tallies, and knows no catalogue and no price."""

from configurator.space.causes import Causes
from configurator.space.compile import compile_space
from configurator.space.space import Space
from configurator.space.tables import BY_ARRANGEMENT, FREE, IMPOSSIBLE, Build, Table, Tally, Term

__all__ = [
    "BY_ARRANGEMENT",
    "FREE",
    "IMPOSSIBLE",
    "Build",
    "Causes",
    "Space",
    "Table",
    "Tally",
    "Term",
    "compile_space",
]
