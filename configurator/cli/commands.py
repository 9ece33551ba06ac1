"""The commands by name: where each lives and what it is for. A module is loaded when its command is called."""

from __future__ import annotations

from importlib import import_module
from typing import NamedTuple

import click

from configurator import __version__
from configurator.cli.ends import DONE
from configurator.cli.flags import keep_manner
from configurator.cli.groups import Group
from configurator.cli.page import stop_writing


class Entry(NamedTuple):
    """A command: the module that holds it under its own name, and its purpose in one line."""

    module: str
    purpose: str


COMMANDS = {
    "options": Entry("options", "What there is to choose, and what the picks so far leave open."),
    "check": Entry("check", "Can it be built? If not, why not and what would help; if so, price, days and checks."),
    "builds": Entry("builds", "List or count the builds that the picks leave."),
    "compare": Entry("compare", "Set two to four builds side by side."),
    "quote": Entry("quote", "The whole offer: lines, totals, days, checks and terms."),
    "rules": Entry("rules", "For the rule engineer: look the rules over."),
    "shop": Entry("shop", "Make a new shop folder, or look one over."),
}
"""In the order of a call, which is the order of the help."""


class Blocks(Group):
    """The group of all commands, loading each on demand."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names in the order of a call."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of this name, its module loaded; None where there is none."""
        if cmd_name not in COMMANDS:
            return None
        found = getattr(import_module(f"configurator.cli.{COMMANDS[cmd_name].module}"), cmd_name)
        assert isinstance(found, click.Command)
        return found

    def invoke(self, ctx: click.Context) -> object:
        """Run the command. A reader who stops reading is no error, which click would make of him."""
        try:
            return super().invoke(ctx)
        except BrokenPipeError:
            stop_writing()
            return DONE

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands in the help, written without loading any."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, entry.purpose) for name, entry in COMMANDS.items()])


def _version(ctx: click.Context, param: click.Parameter, wanted: bool) -> None:
    if wanted and not ctx.resilient_parsing:
        click.echo(f"blocks {__version__}")
        ctx.exit()


@click.command(
    cls=Blocks,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@keep_manner
@click.option("--version", is_flag=True, is_eager=True, expose_value=False, callback=_version, help="Show the version.")
def blocks() -> None:
    """Configure, check, price and promise engine blocks machined from solid aluminium.

    Where a command takes a BUILD, say it in any of these ways, or several in a row, the later winning: picks like
    cooling=dry_deck, the path of an enquiry file, - for an enquiry on standard input, or the code of a build.
    """
