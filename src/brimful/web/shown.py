"""Drawings and charts in a page: the same picture for the desk and, with fewer things abreast, for the phone."""

import re
from collections.abc import Iterator
from html import unescape
from urllib.parse import quote

from jinja2 import pass_context
from jinja2.runtime import Context
from markupsafe import Markup

from brimful.design.growing import WEEKS
from brimful.render.drawings.svg import FONTS
from brimful.web.bench import Sight
from brimful.web.shelf import kept

WIDTHS = {"": (960.0, 16.0), "half": (500.0, 14.0), "narrow": (360.0, 14.0)}
"""Width and size of letters of a picture for the desk, for half of it, and for the phone [px]."""
CHART = "chart-"
DARK = {
    "#1F2A24": "#EDEAE0", "#5A665F": "#A9B4AC", "#FFFFFF": "#161C19", "#1B639C": "#6FB4E8", "#35703E": "#86C58E",
    "#A4481F": "#E8956C", "#9B1C1C": "#FF8A80", "#8A6A00": "#E0BE4A", "#E3DED2": "#3A443E", "#E9D9CC": "#6B4A3A",
    "#F1EADB": "#4A4136", "#DAD6C8": "#3D423B",
}  # fmt: skip
"""What ink, paper and the tints become in the dark; flowers and leaves keep their colour."""
HALF = 480.0
"""Width of a container from above on the desk [px]."""
_ABOVE = re.compile(r"container-(\d{1,3})-[a-z0-9-]*-above-week-(\d\d)\.svg")
FINE = "".join(f'[stroke="#1F2A24" i][stroke-width="{width}"]{{stroke:#7E8A83}}' for width in ("0.5", "0.3"))
"""Outlines of leaves and flowers are softer, that their colours may be seen."""
_SIZE = re.compile(r'font-size="([\d.]+)px"')
_HEAD = re.compile(r"<svg[^>]*>")


def drawn(sight: Sight, name: str, width: str) -> str | None:
    """A drawing or chart by the name of its file, for the desk or `narrow`; None where there is none of that name."""
    if sight.scene is None or width not in WIDTHS:
        return None
    made = kept(sight, f"{width}/{name}", lambda: next(_drawn(sight, name, *WIDTHS[width]), ""))
    return str(made) or None


def _drawn(sight: Sight, name: str, width: float, size: float) -> Iterator[str]:
    from brimful.render.charts.every import every_chart
    from brimful.render.charts.vega import printed
    from brimful.render.drawings.above import draw_above
    from brimful.render.drawings.every import drawings_of

    assert sight.scene is not None
    if name.startswith(CHART):
        stem = name.removeprefix(CHART).removesuffix(".svg")
        yield from (
            dimmable(lettered(printed(chart, width, size))) for key, chart in every_chart(sight.scene) if key == stem
        )
        return
    above = _ABOVE.fullmatch(name)
    if above is not None and int(above[2]) in WEEKS and 0 < int(above[1]) <= len(sight.scene.rows):
        row = sight.scene.rows[int(above[1]) - 1]
        yield dimmable(draw_above(sight.scene, row, width=min(width, HALF), size=size, week=int(above[2])))
    every = drawings_of(sight.scene, width=width, size=size)
    yield from (dimmable(draw()) for key, draw in every if key == name)


def dimmable(svg: str) -> str:
    """A drawing that turns its ink light where the reader has chosen the dark."""
    rules = "".join(
        f'[{part}="{light}" i]{{{part}:{dark}}}' for light, dark in DARK.items() for part in ("fill", "stroke")
    )
    style = f"<style>@media (prefers-color-scheme:dark){{{rules}{FINE}}}</style>"
    return _HEAD.sub(lambda head: head.group() + style, svg, count=1)


def lettered(svg: str) -> str:
    """A chart made for the narrow sans of print, in letters that fit where the reader's own sans is wider."""
    sized = _SIZE.sub(lambda size: f'font-size="{0.92 * float(size[1]):.1f}px"', svg)
    return sized.replace('font-family="Source Sans Pro"', f'font-family="{FONTS}"')


@pass_context
def picture(context: Context, name: str, width: str = "") -> Markup:
    """A drawing or chart as the page shows it, with what it says for those who do not see it."""
    sight: Sight = context["sight"]
    where = f"{context['home']}drawing/{quote(name)}"
    said = chart_words(sight, name) or said_of(drawn(sight, name, "") or "")
    return Markup(
        '<picture><source media="(max-width: 40rem)" srcset="{0}?for=narrow&amp;d={1}">'
        '<img src="{0}?{3}d={1}" alt="{2}" loading="lazy"></picture>'
    ).format(where, f"{sight.digest[:8]}{'' if sight.whole else '-so-far'}", said, f"for={width}&" if width else "")


def charts_of(sight: Sight) -> dict[str, str]:
    """File of each chart there is, and the finding that it shows."""
    from brimful.render.charts.every import every_chart

    if sight.scene is None:
        return {}
    return {f"{CHART}{name}.svg": str(chart["title"]["text"]) for name, chart in every_chart(sight.scene)}


def chart_words(sight: Sight, name: str) -> str:
    """What a chart says; "" for a drawing."""
    return charts_of(sight).get(name, "") if name.startswith(CHART) else ""


def said_of(svg: str) -> str:
    """What a drawing says of itself to those who do not see it."""
    found = re.search(r"<title>(.*?)</title>", svg)
    return unescape(found[1]).strip() if found else ""
