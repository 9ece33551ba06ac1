"""A build: one option for every choice."""

from collections.abc import Mapping
from typing import NamedTuple


class Build(NamedTuple):
    """The completed enquiry: an option for every choice, in the order of the choices' ids, and how each came to be.

    `assumed` lists what nobody asked for (haves taken as, wants completed); `reckoned` the open haves that one build
    needs and that stay to settle. `standing` is the worst that any rule gives. `code` names the build; reckoned haves
    are open in it.
    """

    family: str
    picks: Mapping[str, str]
    standing: str
    code: str
    assumed: tuple[str, ...] = ()
    reckoned: tuple[str, ...] = ()
