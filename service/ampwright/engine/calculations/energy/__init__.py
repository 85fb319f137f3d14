"""How long, how much work, and the way home."""
