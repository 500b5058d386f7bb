"""Roll-out sheet: three measurements in the yard, and what they say about the front drive."""
