"""Every address below a plan that is not a lens; a new one is one module and one line here."""

from brimful.web import start
from brimful.web.parts import (
    charts,
    container,
    downloads,
    edit,
    entries,
    evidence,
    explain,
    journal,
    move,
    pick,
    pictures,
    swaps,
    today,
    work,
)
from brimful.web.parts.part import Part

PARTS: tuple[Part, ...] = (
    *work.PARTS,
    *pictures.PARTS,
    *charts.PARTS,
    *downloads.PARTS,
    *explain.PARTS,
    *evidence.PARTS,
    *container.PARTS,
    *swaps.PARTS,
    *edit.PARTS,
    *entries.PARTS,
    *pick.PARTS,
    *move.PARTS,
    *journal.PARTS,
    *today.PARTS,
    *start.PARTS,
)
