"""A day on the command line."""

from datetime import datetime

import click


class Day(click.DateTime):
    """A day as 2026-07-15; anything else is told with what was expected."""

    def __init__(self) -> None:
        """One form, the one that sorts."""
        super().__init__(["%Y-%m-%d"])

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> datetime:
        """The day, or a usage error."""
        try:
            day: datetime = super().convert(value, param, ctx)
        except click.BadParameter:
            self.fail(f'"{value}" was given; a day was expected, as 2026-07-15', param, ctx)
        return day
