"""Addresses within a plan's page: made here for labels and links alike, so that a printed code stays good."""

from urllib.parse import quote


def container_path(name: str) -> str:
    """Path of a container's page; the name is that of its row with its number from the water's end.

    >>> container_path("water side 3"), container_path("a/b ä 1")
    ('/container/water%20side%203', '/container/a%2Fb%20%C3%A4%201')
    """
    return f"/container/{quote(name, safe='')}"
