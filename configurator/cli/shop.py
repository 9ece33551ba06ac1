"""`blocks shop`: a shop's folder, made or looked over."""

from __future__ import annotations

from pathlib import Path

import click

from configurator.cli.calls import open_desk
from configurator.cli.ends import DONE
from configurator.cli.flags import Manner, with_manner
from configurator.cli.groups import Group
from configurator.cli.page import notice, page_width, show, write_json
from configurator.cli.views.shop import shop_json, shop_page


@click.group(cls=Group)
def shop() -> None:
    """Make a new shop folder, or look one over."""


@shop.command()
@click.argument("folder", metavar="DIR")
@click.option("--force", is_flag=True, help="Replace files that are there.")
@with_manner
def new(manner: Manner, folder: str, force: bool) -> int:
    """Make a small shop in a folder: one family, a few choices and rules, prices and a route, each explained where it
    stands.
    """
    from configurator.documents.json_of import SCHEMA
    from configurator.documents.new_shop import write_shop

    written = write_shop(Path(folder), force)
    if manner.json:
        write_json({"schema": SCHEMA, "written": [str(path) for path in written]})
    else:
        for path in written:
            notice(f"Wrote {path}.")
        notice(f"Look it over with: blocks --shop {folder} shop check")
    return DONE


@shop.command()
@with_manner
def check(manner: Manner) -> int:
    """Read every file of the shop. What is badly written is shown all at once (exit code 2); else what it holds."""
    desk = open_desk(manner)
    if manner.json:
        write_json(shop_json(desk.shop))
    else:
        show(shop_page(desk.shop, page_width()))
    return DONE
