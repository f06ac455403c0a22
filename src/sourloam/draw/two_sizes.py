"""A sheet in one file that has two compositions: one for a table and for paper, one for a phone."""

from collections.abc import Callable
from html import escape
from types import MappingProxyType
from typing import Final

from sourloam.draw.canvas import SMALL_PX, TEXT_PX, drawing, element, group, lines_of_text, number, rect, text, wrapped
from sourloam.draw.palette import INK_2, PAPER, properties_css

WIDE_PX, TALL_PX = 900.0, 390.0
EDGE_PX: Final = MappingProxyType({"wide": 30.0, "tall": 18.0})
HEAD_PX: Final = 22.0
SERIF_TIMES: Final = 0.9  # of the width that is planned for: bold letters of some serif faces run wide
LONGEST_PX: Final = 560.0  # of a line of words
PHONE_TO_PX: Final = 640  # windows up to here get the tall one
PAPER_MM: Final = (180.0, 255.0)  # between the margins of a sheet
FACE: Final = 'system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", "Liberation Sans", sans-serif'
HEAD_FACE: Final = 'Vollkorn, "Iowan Old Style", Georgia, serif'
Part = Callable[[float, float], tuple[str, float]]  # from the top and the width: the piece, and where it ends


def sheet(parts: tuple[Part, ...], *, title: str, desc: str, between: float = 40.0) -> str:
    """Return the sheet as a file of its own; each part draws itself for a width."""
    wide = composed(parts, WIDE_PX, "wide", title=title, desc=desc, between=between)
    tall = composed(parts, TALL_PX, "tall", title=title, desc=desc, between=between)
    return two_in_one(title, wide, tall)


def two_in_one(title: str, wide: str, tall: str) -> str:
    """Return one file that holds a drawing for a table and paper, and one for a phone."""
    wide_high, tall_high = _height_of(wide), _height_of(tall)
    paper_mm = min(PAPER_MM[0], PAPER_MM[1] * WIDE_PX / wide_high)
    css = (
        f"{properties_css()}:root{{background:var(--paper)}}\n"
        f"@media screen and (max-width:{PHONE_TO_PX}px){{"
        f"#sheet{{width:100vw;height:calc(100vw*{number(tall_high / TALL_PX)})}}"
        ".wide{display:none}.tall{display:inline}}\n"
        f"@media print{{#sheet{{width:{number(paper_mm)}mm;height:{number(paper_mm * wide_high / WIDE_PX)}mm}}}}\n"
        "text{font-variant-numeric:tabular-nums lining-nums}\n"
    )
    return element(
        "svg",
        element("title", escape(title)),
        element("style", escape(css, quote=False)),
        _within(wide, WIDE_PX, wide_high),
        _within(tall, TALL_PX, tall_high).replace('class="tall"', 'class="tall" display="none"', 1),
        xmlns="http://www.w3.org/2000/svg",
        id="sheet",
        width=WIDE_PX,
        height=wide_high,
        font_family=FACE,
    )


def composed(parts: tuple[Part, ...], width: float, key: str, *, title: str, desc: str, between: float = 40.0) -> str:
    """Return all parts under each other, as a drawing of one width."""
    edge = EDGE_PX[key]
    drawn, y = [], edge
    for part in parts:
        svg, y = part(y, width - 2.0 * edge)
        drawn.append(svg)
        y += between
    high = y - between + edge
    return drawing(
        (width, high),
        rect((0.0, 0.0), (width, high), fill=PAPER),
        group(*drawn, transform=f"translate({number(edge)} 0)"),
        title=title,
        desc=desc,
        key=key,
    ).replace('class="drawing"', f'class="{key}"')


def heading(name: str, says: str, rest: str) -> Part:
    """Return the part that says the answer: what it is of, a sentence in large type, and what follows it."""

    def drawn(top: float, width: float) -> tuple[str, float]:
        y = top + TEXT_PX
        named = text((0.0, y), wrapped(name, width, most=1)[0], fill=INK_2)
        lines = wrapped(says, width * SERIF_TIMES, size=HEAD_PX, most=8)
        y += 30.0
        head = group(lines_of_text((0.0, y), lines, size=HEAD_PX, bold=True), font_family=HEAD_FACE)
        y += HEAD_PX * 1.2 * (len(lines) - 1) + 26.0
        below = wrapped(rest, min(width, LONGEST_PX), most=8) if rest else ()
        return named + head + lines_of_text((0.0, y), below, fill=INK_2), y + TEXT_PX * 1.2 * max(len(below) - 1, 0)

    return drawn


def caption(words: str, top: float, width: float) -> tuple[str, float]:
    """Return small words below a chart, and where they end."""
    lines = wrapped(words, min(width, LONGEST_PX), size=SMALL_PX, most=6)
    return lines_of_text((0.0, top), lines, size=SMALL_PX, fill=INK_2), top + SMALL_PX * 1.2 * (len(lines) - 1)


def _within(svg: str, width: float, height: float) -> str:
    """Return a drawing that fills the sheet, however large a page or a window makes that."""
    size = f'width="{number(width)}" height="{number(height)}"'
    return svg.replace(size, 'width="100%" height="100%"', 1)


def _height_of(svg: str) -> float:
    return float(svg.partition(' height="')[2].partition('"')[0])
