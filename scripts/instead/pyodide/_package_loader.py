"""Stands in for the runtime's way to fetch packages: all that is used lies in one file."""


class Place:
    """A folder; JavaScript asks for its text."""

    def __init__(self, path: str) -> None:
        self.path = path

    def __str__(self) -> str:
        return self.path


SITE_PACKAGES = Place("/lib/python3.13/site-packages")
DSO_DIR = Place("/usr/lib")


def init_loaded_packages() -> None:
    """Do nothing."""
