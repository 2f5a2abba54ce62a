"""What the book's letters can show: pictures are left out, and what else has no letter stands as "?".

The typesetter's own fonts stand in where the sans has no letter: Hebrew, Arabic, Persian, Devanagari, Georgian,
Armenian. No font is at hand for Chinese, Japanese, Korean, Thai, or emoji, which would print as empty boxes.
"""

import re

_SHOWN = (
    "\t\n\r -\u04ff\u0530-\u060c\u0610-\u061b\u061f\u0621-\u063a\u0640-\u066d\u0670\u0679-\u067b\u067e-\u067f"
    "\u0686\u0687\u0691\u0698\u06a4\u06a9\u06af\u06be\u06cc\u06f0-\u06f9\u0900-\u097f\u10d0-\u10fc"
    "\u1d00-\u1dbf\u1e00-\u2040\u2044-\u2052\u2054-\u211e\u2124\u2126-\u2184\u2189\u2190-\u23ff\u2500-\u262f"
    "\u2638-\u268b\u2701-\u2704\u2706-\u2709\u270c-\u2727\u2729-\u274b\u2798-\u27af\u27b1-\u2bff\ufb00-\ufb4f"
    "\ufe70-\ufefc\ufffd"
)
_UNSHOWN = re.compile(f"[^{_SHOWN}]")
_PICTURE = "[\u2600-\u27bf\U0001f000-\U0001faff](?:[\ufe00-\ufe0f\u200d\u20e3]|[\u2600-\u27bf\U0001f000-\U0001faff])*"
_BESIDE_WORDS = re.compile(rf"{_PICTURE} +(?=\w)|(?<=\w) +{_PICTURE}")


def printable(words: str) -> str:
    """The words as the book can show them.

    >>> printable("Rose 🌺 garden"), printable("花 1"), printable("שלום ☀ ½")
    ('Rose garden', '? 1', 'שלום ☀ ½')
    """
    if not _UNSHOWN.search(words):
        return words
    bare = _BESIDE_WORDS.sub(lambda match: match[0] if not _UNSHOWN.search(match[0]) else "", words)
    return _UNSHOWN.sub("?", bare)


def unshown(words: str) -> int:
    """How many different signs of the words the book cannot show."""
    return len(set(_UNSHOWN.findall(words)))
