"""Lawn implements: will it mark the turf, what must be flagged, and how long it takes."""
