"""What went wrong, told plainly: every exception that a command may end with, and the exit code that goes with it."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Sequence

import click

from configurator.cli import ends
from configurator.cli.page import Line, Part, notice, page_width, prose, show, write_json
from configurator.documents.json_lists import faults_json
from configurator.documents.json_of import SCHEMA
from configurator.documents.saving import Refused
from configurator.faults import Fault, Faulty, NotKnown, Place
from configurator.load.sheets import COMMAND_LINE
from configurator.price import THE_ENQUIRY

STANDARD_INPUT = "standard input"


def tell(error: BaseException, words: Sequence[str]) -> int:
    """Show what ended the call: on the error stream, or as a document where the call asked for JSON. Returns the exit
    code.
    """
    as_json = "--json" in words
    match error:
        case Faulty():
            return _tell_faults(_for_reader(error.faults, words), as_json)
        case click.UsageError():
            return _tell_faults([usage_fault(error)], as_json)
        case click.Abort() | KeyboardInterrupt():
            notice("Stopped.")
            return ends.INTERRUPTED
        case NotKnown():
            return _tell("not_known", f"Not known: {error}", ends.NOT_KNOWN, as_json)
        case Refused():
            return _tell("refused", f"Not saved: {error}.", ends.REFUSED, as_json)
        case OSError():
            return _tell(
                "refused", f"The answer could not be written: {error.strerror or error}.", ends.REFUSED, as_json
            )
    if "--debug" in words:
        import traceback

        show([(Part(line),) for line in "".join(traceback.format_exception(error)).splitlines()], sys.stderr)
    said = f"{type(error).__name__}: {error}".splitlines()[0][:200]
    ours = (
        f"This is a mistake of ours, not of yours ({said}). Please report it with the command and what --debug shows."
    )
    return _tell("bug", ours, ends.BUG, as_json)


def for_customer(words: Sequence[str]) -> bool:
    """Whether the call is for a customer, read from the bare words: also where they could not be understood."""
    audience = os.environ.get("BLOCKS_FOR", "")
    for at, word in enumerate(words):
        if word == "--for":
            audience = "".join(words[at + 1 : at + 2])
        elif word.startswith("--for="):
            audience = word.removeprefix("--for=")
    return audience == "customer"


def _for_reader(faults: Iterable[Fault], words: Sequence[str]) -> list[Fault]:
    """The faults as they may be shown: where the shop's own files are at fault, a customer learns that and no more."""
    faults = list(faults)
    own = {*words, STANDARD_INPUT, COMMAND_LINE.file, THE_ENQUIRY.file}
    if not for_customer(words) or all(fault.place.file in own for fault in faults):
        return faults
    theirs = Fault(Place("the shop"), "", "its files cannot be read just now", "Please ask the shop.")
    return [*(fault for fault in faults if fault.place.file in own), theirs]


def usage_fault(error: click.UsageError) -> Fault:
    """What the command line could not make sense of, in our own words."""
    command = error.ctx.command_path if error.ctx else "blocks"
    if isinstance(error, click.NoSuchOption):
        from configurator.load.words import nearest

        known = [name for param in error.ctx.command.params for name in param.opts] if error.ctx else []
        close = nearest(error.option_name, [name for name in known if name.startswith("-")])
        way_out = f"did you mean {close}?" if close else f"{command} -h lists its flags"
        return Fault(COMMAND_LINE, error.option_name, f"{command} has no such flag", way_out)
    if isinstance(error, click.BadOptionUsage):
        return Fault(
            COMMAND_LINE, error.option_name, "something must stand behind this flag", "blocks COMMAND -h says what"
        )
    key = error.param.opts[0] if isinstance(error, click.BadParameter) and error.param else ""
    if isinstance(error, click.MissingParameter):
        return Fault(COMMAND_LINE, key, "this is missing", f"{command} -h says what is wanted")
    return Fault(COMMAND_LINE, key, error.message.rstrip("."), f"{command} -h shows what can be said")


def _tell_faults(faults: Sequence[Fault], as_json: bool) -> int:
    if as_json:
        write_json(faults_json(faults))
    else:
        width = page_width()
        show([line for fault in faults for line in fault_lines(fault, width)], sys.stderr)
    return ends.FAULTY


def fault_lines(fault: Fault, width: int) -> list[Line]:
    """A fault as it is read: where and what, then the way out beneath."""
    place = "" if fault.place == COMMAND_LINE else f"{fault.place}: "
    key = f"{fault.key}: " if fault.key else ""
    lines = prose(f"{place}{key}{fault.wrong}", width)
    if fault.way_out:
        lines += [(Part("  "), *line) for line in prose(fault.way_out, width - 2)]
    return lines


def _tell(kind: str, text: str, code: int, as_json: bool) -> int:
    if as_json:
        write_json({"schema": SCHEMA, kind: text})
    else:
        notice(text)
    return code
