"""Signs that the book's letters have, and what stands for those they have not."""

import re
import unicodedata

import pytest
import typst

from brimful.render.book.letters import printable, unshown
from brimful.render.fonts import font_folder

HEAD = '#set page(width: 2000pt, height: auto)\n#set text(font: ("Source Sans Pro", "DejaVu Sans Mono"))\n'
EMPTY_BOX = "\U0001f33a"


def drawn(signs: str) -> list[str]:
    """The shapes that the typesetter draws for each sign, as it names them."""
    body = "".join(f'#text("\\u{{{ord(sign):x}}}")' for sign in signs)
    fonts = typst.Fonts(include_system_fonts=False, font_paths=[font_folder()])
    svg = typst.compile((HEAD + body).encode(), format="svg", font_paths=fonts)
    assert isinstance(svg, bytes)
    return re.findall(r'<use [^>]*xlink:href="#(g[0-9A-F]+)"', svg.decode())


def test_no_sign_that_is_let_through_prints_as_an_empty_box() -> None:
    """Every third letter, figure and sign that stays as it is has a shape of its own."""
    assigned = [chr(i) for i in range(0x21, 0xFFFE) if unicodedata.category(chr(i))[0] in "LNS"]
    kept = "".join([sign for sign in assigned if printable(sign) == sign][::3])
    box = drawn(EMPTY_BOX)[0]
    assert len(kept) > 500
    assert box not in drawn(kept)
    assert box in drawn("花") and box in drawn("ก")


@pytest.mark.parametrize(
    ("said", "printed"),
    [
        ("Rose 🌺 garden", "Rose garden"),
        ("🌺 Rose", "Rose"),
        ("❤️ Rose", "Rose"),
        ("🌺", "?"),
        ("花园 3", "?? 3"),
        ("שער 2", "שער 2"),
        ("حديقة باغ 2", "حديقة باغ 2"),
        ("Сад, Κήπος, ბაღი, այգի, Vườn, Łąka ½ ≥ →", "Сад, Κήπος, ბაღი, այգի, Vườn, Łąka ½ ≥ →"),
    ],
)
def test_pictures_are_left_out_and_other_letters_told(said: str, printed: str) -> None:
    """An emoji beside words goes without a gap; what has no letter is one question mark each; the rest stays."""
    assert printable(said) == printed
    assert (unshown(said) == 0) == (said == printed)
