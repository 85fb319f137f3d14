"""How much more, how long, how large: what must change so that the answer changes."""
