"""Stands in for heapq: what C has of it."""

from _heapq import heapify as heapify
from _heapq import heappop as heappop
from _heapq import heappush as heappush
from _heapq import heappushpop as heappushpop
from _heapq import heapreplace as heapreplace
