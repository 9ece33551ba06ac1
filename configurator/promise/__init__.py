"""When a build can be ready: its route laid over the shop's work centres and calendar."""

from configurator.promise.plan import plan

__all__ = ["plan"]
