"""Edits on a plan's text: what an edit does not touch stays as it is, byte for byte: notes, order, spelling.

An edit is data: a step or more, done all or not at all. What comes out is read back and compared with what was meant,
so that an edit gives the new text or says in words why not.
"""

from copy import deepcopy

from brimful.plan.write.intent import bare, intend, same
from brimful.plan.write.layout import Layout, data_of
from brimful.plan.write.splices import spliced
from brimful.plan.write.steps import Add, Duplicate, Move, Refused, Remove, Set, Step, Value
from brimful.records import record

__all__ = ["Add", "Duplicate", "Edit", "Move", "Remove", "Set", "Step", "Value", "rewrite"]

LONGEST_PATH = 32
_BY_HAND = "The plan is written in a way that this edit does not reach; change it in the text by hand."


@record
class Edit:
    """What came of an edit: the new text, or the old one and the words that say why not."""

    text: str
    refusal: str = ""

    @property
    def done(self) -> bool:
        """Whether the edit was done."""
        return not self.refusal


def rewrite(text: str, *steps: Step) -> Edit:
    """Do steps on a plan's text, each on what the one before left; all of them, or none.

    >>> rewrite('[site]  # here\\nplace = "quay"\\n', Set(("site", "latitude"), 48.2)).text
    '[site]  # here\\nplace = "quay"\\nlatitude = 48.2\\n'
    >>> rewrite("[site]", Remove(("site", "place"))).refusal
    'site has no place.'
    """
    now = text
    try:
        for step in steps:
            now = _done(now, step)
    except Refused as refused:
        return Edit(text, str(refused))
    return Edit(now)


def _done(text: str, step: Step) -> str:
    try:
        layout = Layout.of(text)
    except (ValueError, RecursionError):
        raise Refused("The text is not a plan that can be read; mend it by hand first.") from None
    if not 0 < len(step.path) <= LONGEST_PATH:
        raise Refused("Name the field that is to be changed.")
    try:
        wanted = deepcopy(layout.data)
        intend(wanted, step)
        after = spliced(layout, step)
        data = data_of(after)
    except (ValueError, TypeError, RecursionError):
        raise Refused(_BY_HAND) from None
    if isinstance(step, Remove):
        data, wanted = bare(data), bare(wanted)
    if not same(data, wanted):
        raise Refused(_BY_HAND)
    return after
