"""How quick an answer is: `python tests/benchmarks/start.py`.

First what a command costs from the shell: processor time (user and system, by os.wait4) as a multiple of
`python -c pass`, the least of twenty runs. The runs of all commands take turns, so that a slow minute of the machine
falls on each alike; the cache is warm. A multiple says more than a time: it is much the same on any machine.

Then what a pick costs inside a program that stays open, on the demo shop: a thousand random sequences of eight picks,
and after each pick the open options of every choice.
"""

from __future__ import annotations

import compileall
import os
import random
import sys
import tempfile
import time
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import NamedTuple

import configurator
from configurator import shipped
from configurator.completing import CLOSED
from configurator.desk import lay, open_shop
from configurator.enquiry import Enquiry

RUNS, SEQUENCES, PICKS = 20, 1_000, 8
BLOCKS = ("-c", "from configurator.cli import run; run()")

ENQUIRY = """\
customer = "A caller"
[have]
crank_flange = "eight_bolt"
main_width = "narrow"
[want]
cooling = "dry_deck"
use = "circuit"
[duty]
power = "160 kW"
speed = "8000 rpm"
"""


class Command(NamedTuple):
    """A command line of `blocks` and what it is an example of."""

    what: str
    words: tuple[str, ...]


def commands(enquiry: Path) -> list[Command]:
    """What is measured; the enquiry has haves, wants and a duty."""
    return [
        Command("the version", ("--version",)),
        Command("check, three picks", ("check", "cooling=dry_deck", "use=circuit", "studs=m12")),
        Command("the same as JSON", ("check", "cooling=dry_deck", "use=circuit", "studs=m12", "--json")),
        Command("check, an enquiry file with a duty", ("check", str(enquiry))),
        Command("check, a conflict with its ways out", ("check", "cooling=solid", "use=street")),
        Command("check, a bore as asked", ("check", "bore=83.3 mm", "use=circuit")),
        Command("options", ("options", "cooling=dry_deck")),
        Command("builds, the first ten", ("builds", "cooling=solid", "--limit", "10")),
        Command("quote", ("quote", "cooling=jacketed", "use=street")),
    ]


def cost(words: Sequence[str]) -> float:
    """Processor seconds of one run of this interpreter with these words; what it prints is thrown away."""
    silence = os.open(os.devnull, os.O_RDWR)
    actions = [(os.POSIX_SPAWN_DUP2, silence, stream) for stream in (0, 1, 2)]
    child = os.posix_spawn(sys.executable, (sys.executable, *words), os.environ, file_actions=actions)
    _, status, used = os.wait4(child, 0)
    os.close(silence)
    if os.waitstatus_to_exitcode(status) not in (0, 1):  # 1 is the answer no
        sys.exit(f"{' '.join(words)} failed; run it by hand to see why")
    return used.ru_utime + used.ru_stime


def measure_commands() -> None:
    """Prints what each command costs, in starts of a bare interpreter."""
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        os.environ["BLOCKS_CACHE"] = str(Path(folder, "cache"))
        # Where bytecode may not be written every start would compile all modules anew; an installed program never does.
        compileall.compile_dir(Path(configurator.__file__).parent, quiet=1)
        enquiry = Path(folder, "enquiry.toml")
        enquiry.write_text(ENQUIRY, encoding="utf-8")
        measured = [Command("python -c pass", ("-c", "pass"))]
        measured += [Command(what, (*BLOCKS, *words)) for what, words in commands(enquiry)]
        for command in measured:
            cost(command.words)  # the first run fills the cache
        rounds = [[cost(command.words) for command in measured] for _ in range(RUNS)]
        least = [min(costs) for costs in zip(*rounds, strict=True)]
        os.chdir("/")
    print(f"a bare interpreter starts in {1000 * least[0]:.1f} ms of processor time; the commands cost")
    for command, seconds in zip(measured[1:], least[1:], strict=True):
        print(f"  {seconds / least[0]:5.1f} times that   {command.what}")


def measure_picks() -> None:
    """Prints how long the demo shop's space takes from a pick to the open options of every choice."""
    desk = open_shop(shipped.demo_folder() / "tarnwick")
    (family,) = desk.shop.families
    space = lay(desk, Enquiry(family, {}), date.today()).space
    chance, times = random.Random(1), []
    for _ in range(SEQUENCES):
        narrowed, standings = space, space.standings()
        for choice in chance.sample(range(len(space.sizes)), PICKS):
            open_options = [option for option, kind in enumerate(standings[choice]) if kind != CLOSED]
            started = time.perf_counter()
            narrowed = narrowed.pick(choice, chance.choice(open_options))
            standings = narrowed.standings()
            times.append(time.perf_counter() - started)
    times.sort()
    middle, late = times[len(times) // 2], times[len(times) * 95 // 100]
    print(f"{len(times):,} picks over {len(space.sizes)} choices, each with the open options of all:")
    print(f"  {1000 * middle:5.2f} ms in the middle, {1000 * late:5.2f} ms at the 95th percentile")


if __name__ == "__main__":
    measure_commands()
    measure_picks()
