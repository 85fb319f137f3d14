"""Which tools run here, alone and together? The face of the load check: evaluate, judge, tell."""
