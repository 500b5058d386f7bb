"""Stands in for ipaddress, which urllib.parse asks about a host in brackets: links have none."""


def ip_address(text: str) -> None:
    """Raise, as for what is no address."""
    raise ValueError(text)
