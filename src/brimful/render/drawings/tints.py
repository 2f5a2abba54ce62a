"""Flat tints for the colour words of the plant table: what the words look like (common practice, no source)."""

FLOWER = {
    "white": "#F4F1EA", "cream": "#F3E7C4", "yellow": "#F0CF3C", "gold": "#DDA91F", "apricot": "#F0B27A",
    "orange": "#E5812B", "coral": "#E8765E", "salmon": "#EE9A86", "scarlet": "#D4311F", "red": "#BE2A2C",
    "dark-red": "#8C1F26", "burgundy": "#6E1F33", "bronze": "#8A5A34", "pink": "#E68FAE", "pale-pink": "#F2C6D1",
    "rose": "#D65C86", "magenta": "#B8326F", "lilac": "#C3A5D3", "lavender": "#A79BD0", "purple": "#6F3F8E",
    "dark-purple": "#452A5C", "violet": "#6552A8", "violet-blue": "#5659B0", "blue": "#3F6FB5", "pale-blue": "#9DBBDD",
    "green": "#9CBF6B",
}  # fmt: skip
LEAVES = {
    "mid-green": "#7FA46A", "green": "#7FA46A",
    "dark-green": "#4F7A50", "grey-green": "#9DB09A",
    "blue-green": "#7FA59C", "silver": "#C3CCC4",
    "chartreuse": "#BCCB57", "golden": "#CDBB4E", "bronze": "#8B6A4E", "burgundy": "#7A4450",
    "purple": "#6E4A72", "near-black": "#4A4247", "red": "#A3483F", "orange": "#C98A4B", "pink": "#D9A3AE",
    "variegated": "#B9C79A", "patterned": "#93A877", "zoned-green": "#7C9A62", "white": "#DDE2D2",
}  # fmt: skip
PLAIN_LEAF = LEAVES["mid-green"]


def leaf_tint(words: tuple[str, ...]) -> str:
    """The tint of the first leaf colour that has one."""
    return next((LEAVES[word] for word in words if word in LEAVES), PLAIN_LEAF)


def flower_tint(words: tuple[str, ...]) -> str | None:
    """The tint of the first flower colour; None for a plant that is grown for its leaves."""
    return next((FLOWER[word] for word in words if word in FLOWER), None)
