"""The rule engineer's side: what is wrong with rules, what an edit changes, a rule explained, tried and written."""
