"""Stands in for __future__: that annotations stay text is known to the compiler alone."""

annotations = None
