"""Stands in for the other names of encodings: there is one encoding here."""

aliases = {"utf8": "utf_8"}
