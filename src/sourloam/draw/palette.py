"""The colours of all drawings and pages: matter in colour, the tool in ink. Light, dark and on paper.

A drawing names a colour as a custom property with the light value behind it, so that it is right in a page
that sets the properties (`properties_css`) and readable in one that does not.
"""

from itertools import pairwise
from types import MappingProxyType
from typing import Final

LIGHT: Final = MappingProxyType(
    {
        "paper": "#f2f5f1",
        "sheet": "#fbfcfa",
        "ink": "#17211c",
        "ink-2": "#46524b",
        "hair": "#c6cec7",
        "edge": "#707c74",
        "board": "#5d4b38",
        "call": "#a8330f",
        "focus": "#0a58ca",
        "bran-fill": "#e6cf9f",
        "bran-line": "#8a5a17",
        "leachate-fill": "#e3b04b",
        "leachate-line": "#7a5006",
        "soil-fill": "#d8cdbd",
        "soil-line": "#6d573f",
        "leaves-fill": "#dcc8a6",
        "leaves-line": "#7a5426",
        "rice-wash": "#cdd6d2",
        "curd": "#f4efdc",
        "serum": "#d9d48a",
        "plant": "#2f6632",
        "frozen": "#64798e",
        "air": "#fbfcfa",
        "fan-outer": "#d3d9d4",
        "fan-inner": "#b0bab2",
    }
)

DARK: Final = MappingProxyType(
    {
        "paper": "#121815",
        "sheet": "#1a221d",
        "ink": "#e7ece6",
        "ink-2": "#aab6ad",
        "hair": "#343f38",
        "edge": "#7f8c83",
        "board": "#a58b69",
        "call": "#ff9c73",
        "focus": "#8cc2ff",
        "bran-fill": "#6b5325",
        "bran-line": "#e0b25c",
        "leachate-fill": "#94651a",
        "leachate-line": "#f3cf86",
        "soil-fill": "#40362b",
        "soil-line": "#b49d80",
        "leaves-fill": "#57462c",
        "leaves-line": "#cbaa76",
        "rice-wash": "#8f978a",
        "curd": "#cfc9b4",
        "serum": "#a9a34e",
        "plant": "#93cf8d",
        "frozen": "#8fa7bd",
        "air": "#1f2823",
        "fan-outer": "#2b352f",
        "fan-inner": "#46534b",
    }
)

# On paper: black on white, matter by its pattern on pale grey, plants black.
PRINT: Final = MappingProxyType(
    {
        **LIGHT,
        "paper": "#ffffff",
        "sheet": "#ffffff",
        "ink": "#000000",
        "ink-2": "#333333",
        "hair": "#bbbbbb",
        "edge": "#666666",
        "board": "#000000",
        "call": "#000000",
        "focus": "#000000",
        "bran-fill": "#e6e6e6",
        "bran-line": "#444444",
        "leachate-fill": "#d6d6d6",
        "leachate-line": "#333333",
        "soil-fill": "#e6e6e6",
        "soil-line": "#444444",
        "leaves-fill": "#e0e0e0",
        "leaves-line": "#444444",
        "rice-wash": "#eeeeee",
        "curd": "#f6f6f6",
        "serum": "#dddddd",
        "plant": "#000000",
        "frozen": "#444444",
        "air": "#ffffff",
        "fan-outer": "#e0e0e0",
        "fan-inner": "#bdbdbd",
    }
)


def colour(name: str) -> str:
    """Return a colour as a page takes it: its custom property, and the light value where a page sets none."""
    return f"var(--{name}, {LIGHT[name]})"


PAPER: Final = colour("paper")
SHEET: Final = colour("sheet")
INK: Final = colour("ink")
INK_2: Final = colour("ink-2")
HAIR: Final = colour("hair")
EDGE: Final = colour("edge")
BOARD: Final = colour("board")
CALL: Final = colour("call")
PLANT: Final = colour("plant")
FROZEN: Final = colour("frozen")
AIR: Final = colour("air")
FAN_OUTER: Final = colour("fan-outer")
FAN_INNER: Final = colour("fan-inner")
BRAN_FILL: Final = colour("bran-fill")
BRAN_LINE: Final = colour("bran-line")
LEACHATE_FILL: Final = colour("leachate-fill")
LEACHATE_LINE: Final = colour("leachate-line")
SOIL_FILL: Final = colour("soil-fill")
SOIL_LINE: Final = colour("soil-line")
LEAVES_FILL: Final = colour("leaves-fill")
LEAVES_LINE: Final = colour("leaves-line")
RICE_WASH: Final = colour("rice-wash")
CURD: Final = colour("curd")
MILK: Final = CURD
SERUM: Final = colour("serum")

# The cabbage scale, from fresh to soured. It means pH and nothing else, and does not follow the theme.
CABBAGE: Final = (
    (3.5, "#63234d"),
    (4.0, "#71406c"),
    (4.5, "#7c5c8a"),
    (5.0, "#8578a6"),
    (5.5, "#9095be"),
    (6.0, "#9fb2d1"),
    (6.5, "#b7cedf"),
    (7.0, "#d7e9eb"),
)
DARK_MARK, LIGHT_MARK = "#17211c", "#f2f5f1"

Triple = tuple[float, float, float]


def cabbage(ph: float) -> str:
    """Return the colour of a pH: between the steps through CIELAB, beyond the ends the end."""
    if ph <= CABBAGE[0][0]:
        return CABBAGE[0][1]
    for (low, sour), (high, fresh) in pairwise(CABBAGE):
        if ph <= high:
            return _hex(_between(_lab(sour), _lab(fresh), (ph - low) / (high - low)))
    return CABBAGE[-1][1]


def mark_on(ph: float) -> str:
    """Return the colour of a mark that stands on the cabbage scale."""
    return DARK_MARK if ph >= 5.0 else LIGHT_MARK


def properties_css() -> str:
    """Return the style sheet that sets all colours: light, dark as the system or `data-theme` says, and on paper."""
    light, dark, paper = (_declared(each) for each in (LIGHT, DARK, PRINT))
    return (
        f":root{{{light}}}\n"
        f'@media screen and (prefers-color-scheme:dark){{:root:not([data-theme="light"]){{{dark}}}}}\n'
        f'@media screen{{:root[data-theme="dark"]{{{dark}}}}}\n'
        f"@media print{{:root{{{paper}}}}}\n"
    )


def _declared(values: MappingProxyType[str, str]) -> str:
    return "".join(f"--{name}:{value};" for name, value in values.items())


def _between(one: Triple, other: Triple, part: float) -> Triple:
    first, second, third = (a + (b - a) * part for a, b in zip(one, other, strict=True))
    return first, second, third


# sRGB to CIELAB and back, IEC 61966-2-1 and CIE 15 with the white of D65.
WHITE: Final = (0.95047, 1.0, 1.08883)
BEND: Final = 6.0 / 29.0


def _lab(value: str) -> Triple:
    red, green, blue = (_linear(int(value[at : at + 2], 16) / 255.0) for at in (1, 3, 5))
    x = 0.4124564 * red + 0.3575761 * green + 0.1804375 * blue
    y = 0.2126729 * red + 0.7151522 * green + 0.0721750 * blue
    z = 0.0193339 * red + 0.1191920 * green + 0.9503041 * blue
    fx, fy, fz = (_bent(part / white) for part, white in zip((x, y, z), WHITE, strict=True))
    return 116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)


def _hex(lab: Triple) -> str:
    fy = (lab[0] + 16.0) / 116.0
    bent = (fy + lab[1] / 500.0, fy, fy - lab[2] / 200.0)
    x, y, z = (_unbent(part) * white for part, white in zip(bent, WHITE, strict=True))
    red = 3.2404542 * x - 1.5371385 * y - 0.4985314 * z
    green = -0.9692660 * x + 1.8760108 * y + 0.0415560 * z
    blue = 0.0556434 * x - 0.2040259 * y + 1.0572252 * z
    return "#" + "".join(f"{round(_encoded(part) * 255.0):02x}" for part in (red, green, blue))


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)


def _encoded(part: float) -> float:
    inside = min(max(part, 0.0), 1.0)
    return inside * 12.92 if inside <= 0.0031308 else float(1.055 * inside ** (1.0 / 2.4) - 0.055)


def _bent(part: float) -> float:
    return float(part ** (1.0 / 3.0)) if part > BEND**3 else part / (3.0 * BEND**2) + 4.0 / 29.0


def _unbent(part: float) -> float:
    return part**3 if part > BEND else 3.0 * BEND**2 * (part - 4.0 / 29.0)
