"""Repair before selling: sell as is, repair and sell, or trade in."""
