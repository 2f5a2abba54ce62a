"""The lenses, in the order they stand on the page; a new one is one module and one line here."""

from brimful.web.leaf import Page
from brimful.web.pages import doubts, keep, make, notes, plants, row, water

PAGES: tuple[Page, ...] = (row.PAGE, water.PAGE, plants.PAGE, make.PAGE, keep.PAGE, notes.PAGE, doubts.PAGE)
