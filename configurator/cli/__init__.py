"""The command line, `blocks`. Each command is a module of its own, loaded when it is called, and lays out its answer
with the views. Nothing is worked out here: `desk` does that.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from typing import NoReturn

from configurator.cli.ends import DONE

GARBAGE = 50_000
"""Objects made before the collector looks round; at its usual 700 it would walk the shop's values many times."""


def main(args: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code. No error of any kind comes out as a traceback, but with --debug."""
    gc.set_threshold(GARBAGE)
    from configurator.cli.commands import blocks
    from configurator.cli.page import stop_writing

    words = list(sys.argv[1:] if args is None else args)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")  # a terminal that lacks a character is no reason to fail
    try:
        code = blocks.main(words, prog_name="blocks", standalone_mode=False)
        sys.stdout.flush()
    except BrokenPipeError:
        stop_writing()
        return DONE
    except (Exception, KeyboardInterrupt) as error:
        from configurator.cli.mistakes import tell

        return tell(error, words)
    return code if isinstance(code, int) else DONE


def run() -> NoReturn:
    """`blocks` as the shell calls it: the command, and out at once with its exit code.

    An orderly end of the interpreter takes the shop's thousands of values apart one by one, an eighth of what a whole
    answer costs. Nothing waits for it: files are closed by whoever writes them, and the two streams are flushed here.
    """
    code = main()
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError):  # nobody is there to read it
            stream.flush()
    os._exit(code)
