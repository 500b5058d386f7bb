"""Stands in for operator: of what C has of it the names that are taken here."""

from _operator import eq as eq
from _operator import itemgetter as itemgetter
