"""Measures a drawing: where its words and shapes lie. There is no font here, so a letter counts 0.56 of its size."""

import re
import xml.etree.ElementTree as ET
from typing import NamedTuple

SVG = "{http://www.w3.org/2000/svg}"
EM = 0.56
ASCENT, DESCENT = 0.74, 0.2  # of the size, over and under the base line


class Box(NamedTuple):
    words: str
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other):
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )


def drawings(text):
    """Return each drawing of a text that may hold several."""
    return [ET.fromstring(each) for each in re.findall(r"<svg .*?</svg>", text, flags=re.DOTALL)]


def size_of(svg):
    _, _, width, height = (float(each) for each in svg.get("viewBox").split())
    return width, height


def words_of(svg):
    return [box_of(each) for each in svg.iter(f"{SVG}text")]


def box_of(text):
    size, x, y = (float(text.get(name)) for name in ("font-size", "x", "y"))
    width = len(text.text) * size * EM
    left = x - {"start": 0.0, "middle": width / 2.0, "end": width}[text.get("text-anchor", "start")]
    return Box(text.text, left, y - ASCENT * size, left + width, y + DESCENT * size)


def shapes_of(svg):
    """Return the boxes of all shapes outside patterns and definitions."""
    hidden = {id(each) for definitions in svg.iter(f"{SVG}defs") for each in definitions.iter()}
    return [box for each in svg.iter() if id(each) not in hidden for box in shape_of(each)]


def shape_of(node):
    name = node.tag.removeprefix(SVG)
    if name == "rect":
        x, y, width, height = (float(node.get(each)) for each in ("x", "y", "width", "height"))
        return [Box(name, x, y, x + width, y + height)]
    if name == "circle":
        x, y, radius = (float(node.get(each)) for each in ("cx", "cy", "r"))
        return [Box(name, x - radius, y - radius, x + radius, y + radius)]
    if name == "line":
        xs, ys = ([float(node.get(f"{axis}{at}")) for at in "12"] for axis in "xy")
        return [Box(name, min(xs), min(ys), max(xs), max(ys))]
    if name in {"polygon", "polyline"}:
        points = [[float(part) for part in each.split(",")] for each in node.get("points").split()]
        xs, ys = zip(*points, strict=True)
        return [Box(name, min(xs), min(ys), max(xs), max(ys))]
    return []


def overlaps(svg):
    """Return the pairs of words that lie on one another."""
    found = words_of(svg)
    return [(one.words, other.words) for at, one in enumerate(found) for other in found[at + 1 :] if one.meets(other)]


def outside(svg):
    """Return the words and shapes that leave the drawing."""
    width, height = size_of(svg)
    return [
        each
        for each in words_of(svg) + shapes_of(svg)
        if each.left < -0.01 or each.top < -0.01 or each.right > width + 0.01 or each.bottom > height + 0.01
    ]


def colours_of(svg):
    return {node.get(each) for node in svg.iter() for each in ("fill", "stroke")} - {None, "none"}
