"""Cab cooling: can this cab take it, how much is needed, and what that takes from the engine."""
