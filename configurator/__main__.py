"""`python -m configurator` is `blocks`."""

from configurator.cli import run

run()
