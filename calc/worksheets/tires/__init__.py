"""Tire swap: what other tires do to lead, speed, clearance, width, load and ballast."""
