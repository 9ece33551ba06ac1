"""Groups of commands: a misspelt one is answered with the nearest, and the group alone with its help."""

from __future__ import annotations

import click

from configurator.cli.flags import word_fault


class Group(click.Group):
    """A group whose words are answered in our own manner."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command that is meant. Faulty, with the nearest, where there is none of that name."""
        known = self.list_commands(ctx)
        if args[0] not in known and not args[0].startswith("-") and not ctx.resilient_parsing:
            from configurator.load.words import suggest

            raise word_fault(args[0], f"{ctx.command_path} has no such command", suggest(args[0], known, "commands"))
        return super().resolve_command(ctx, args)

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """The words behind the group; where there are none, its help is the answer."""
        if not args and not ctx.resilient_parsing:
            click.echo(ctx.get_help())
            ctx.exit()
        return super().parse_args(ctx, args)
