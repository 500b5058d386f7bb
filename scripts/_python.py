"""Whether this Python is new enough, said so that an old one can still read it.

Every command calls `require` before it imports anything else of the project. Whatever stands
before that call keeps to what Python 3.6 can read.
"""

import shutil
import sys

OLDEST = (3, 12)
NEWER = ("python3.13", "python3.12", "python3.14")


def require() -> None:
    """End with one sentence when this Python is too old for what follows."""
    if sys.version_info >= OLDEST:
        return
    said = "Python {}.{} or newer is needed; this is {}.{}.".format(*OLDEST, *sys.version_info[:2])
    found = [name for name in NEWER if shutil.which(name)]
    if found:
        said += " This machine has {0}: put {0} in place of python3.".format(found[0])
    sys.exit(said)
