"""The clock of the pages, in one place so that a test can stop it."""

from datetime import date


def today() -> date:
    """Today, where the page is served."""
    return date.today()
