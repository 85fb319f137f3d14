"""How often tools run together over a shift and what that does."""
