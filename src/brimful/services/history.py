"""Undo and redo of a plan's texts; what someone else saves is a step in it too."""

from dataclasses import replace

from brimful.records import record


@record
class Step:
    """A text in a history, and what was done to come to it."""

    text: str
    what: str = ""


@record
class History:
    """The texts of a plan in order, and which of them stands now. The oldest are let go beyond `most`."""

    steps: tuple[Step, ...]
    at: int = 0
    most: int = 200

    @classmethod
    def of(cls, text: str, most: int = 200) -> "History":
        """A history that begins with a text."""
        return cls((Step(text),), 0, max(1, most))

    @property
    def text(self) -> str:
        """The text that stands now."""
        return self.steps[self.at].text

    @property
    def undoes(self) -> str | None:
        """What an undo takes back, in words; None where there is nothing."""
        return self.steps[self.at].what if self.at > 0 else None

    @property
    def redoes(self) -> str | None:
        """What a redo does again, in words; None where there is nothing."""
        return self.steps[self.at + 1].what if self.at + 1 < len(self.steps) else None

    def then(self, text: str, what: str = "") -> "History":
        """A step on: what had been undone is let go. The same text is no step."""
        if text == self.text:
            return self
        steps = (*self.steps[: self.at + 1], Step(text, what))[-self.most :]
        return replace(self, steps=steps, at=len(steps) - 1)

    def then_theirs(self, text: str) -> "History":
        """A step on to what someone else has saved, so that an undo leads back to what stood here."""
        return self.then(text, "what someone else saved")

    def undone(self) -> "History":
        """A step back, where there is one."""
        return replace(self, at=max(0, self.at - 1))

    def redone(self) -> "History":
        """A step forward again, where there is one."""
        return replace(self, at=min(len(self.steps) - 1, self.at + 1))
