"""How a call ends: the exit codes, for scripts that ask."""

from __future__ import annotations

DONE = 0
"""Possible, by arrangement too; or done as asked."""

NO = 1
"""Impossible; or lint has findings."""

FAULTY = 2
"""A flag, a pick or a file is badly written."""

REFUSED = 3
"""A file could not be saved."""

NOT_KNOWN = 4
"""The search met its cap of time or size before an answer."""

CHANGED = 5
"""The effect of an edit: something is answered otherwise."""

BUG = 70
"""Our mistake."""

INTERRUPTED = 130
"""Stopped from the keyboard."""

OF_VERDICT = {"free": DONE, "by_arrangement": DONE, "impossible": NO, "not_known": NOT_KNOWN}
