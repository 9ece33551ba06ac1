"""The rule engineer's side: what a shop's rules allow, and whether its examples and expected answers still hold."""
