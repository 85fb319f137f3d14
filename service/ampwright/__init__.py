"""Ampwright: which tools run on which mobile power source."""
