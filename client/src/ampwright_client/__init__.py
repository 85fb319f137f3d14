"""Typed client of the Ampwright service."""
