"""Answers about compact and utility tractors, each with its working and its sources."""

__version__ = "0.1.0"
