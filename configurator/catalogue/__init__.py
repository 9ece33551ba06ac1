"""The values that a shop's files turn into: frozen, dumb, each with the place where it was written."""
