"""How every load starts, what the others feel while it does, and in which order to start."""
