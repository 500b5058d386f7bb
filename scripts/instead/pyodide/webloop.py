"""Stands in for the runtime's event loop: nothing here waits."""


def _initialize_event_loop() -> None:
    """Do nothing."""
