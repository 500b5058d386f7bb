"""Stands in for asyncio: nothing here waits. Compiled code looks these names up."""


class Future:
    """Never made."""


def get_event_loop() -> None:
    """Raise: there is no loop."""
    raise RuntimeError("no event loop")
