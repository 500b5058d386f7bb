"""Duals: spacing, width, what they do to the axle and its bearings, bolts, and side stability."""
