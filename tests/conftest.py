"""What every test shares."""

from hypothesis import settings

# A slow machine is no finding: how long an example takes is measured elsewhere.
settings.register_profile("yardstick", deadline=None)
settings.load_profile("yardstick")
