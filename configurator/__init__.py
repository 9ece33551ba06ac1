"""Configures, checks, prices and promises engine blocks machined from solid aluminium."""

__version__ = "0.1.0"
