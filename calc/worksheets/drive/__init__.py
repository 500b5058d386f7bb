"""Hydrostatic or gear: what each brings to the ground, and what it costs over a year."""
