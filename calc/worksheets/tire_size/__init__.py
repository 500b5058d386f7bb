"""Tire size: what the writing on a sidewall means, and what the tire measures and carries."""
