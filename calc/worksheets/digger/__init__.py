"""Post hole digger: does it reach, does it clear, is there power, and what breaks first."""
