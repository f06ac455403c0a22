"""Generated TOML documents, and on which line each of their keys was put."""

import re
from dataclasses import dataclass, field

from hypothesis import strategies as st

from sourloam.base.literals import quoted

NAMES = ("a", "b", "key-1", "x y", "a.b", 'q"', "it's", "ü", "[t]", "#", "=", "1", "", "\t", "\\")
VALUES = (
    "1",
    "2027-03-01",
    '"text # no comment"',
    '"[[no.header]]"',
    '"\\" # still text"',
    '"C:\\\\"',
    "'C:\\'",
    '"a \u2028 b \x85 c"',
    '"""\n[no.header]\nno = 1\n"""',
    "'''\nno = 1\n[[no]]'''",
    '"""two more quotes"""""',
    "'''two more quotes'''''",
    '"""an escaped \\""" is no end\nno = 1"""',
    '"""\\\n   joined"""',
    '""',
    '""""""',
    '[1,\n  2, # ] not yet\n  "]",\n]',
    "[ # [ [ [\n]",
    "[[1, 2], [3,\n\n4]]",
    "[\"\"\"\n]\n\"\"\", '''x''']",
    '{ a = "]}", "b c" = { d = 1 }, e.f = [\n1] }',
    "{}",
)
COMMENTS = ("", "", " # note", " # [a]", " #\u2028x = 1\x85y = 2", '# "')
BETWEEN = ((), (), ("",), ("# a = 1", "  "), ("\t# [b] \u2028[c]",))


@dataclass
class Page:
    """A document that is being written."""

    draw: object
    lines: list[str] = field(default_factory=list)
    paths: dict[tuple, int] = field(default_factory=dict)

    def put(self, path, text, *, names=1):
        """Write a statement; note the last `names` parts of its path here, if they are new."""
        self.lines.extend(self.draw(st.sampled_from(BETWEEN)))
        for end in range(len(path) - names + 1, len(path) + 1):
            self.paths.setdefault(path[:end], len(self.lines) + 1)
        indent = self.draw(st.sampled_from(("", "", "  ", "\t")))
        self.lines.extend(f"{indent}{text}{self.draw(st.sampled_from(COMMENTS))}".split("\n"))

    def key(self, name):
        """Write a name bare or in quotes of either kind."""
        ways = [quoted(name)]
        if re.fullmatch("[A-Za-z0-9_-]+", name):
            ways += [name, name]
        if "'" not in name:
            ways.append(f"'{name}'")
        return self.draw(st.sampled_from(ways))

    def dotted(self, names):
        """Write several names with points between them."""
        return self.draw(st.sampled_from((".", ".", " . "))).join(self.key(name) for name in names)

    def table(self, names, path, depth):
        """Write what a table holds: its own keys first, then the tables within it."""
        held = self.draw(st.lists(st.sampled_from(NAMES), unique=True, max_size=4))
        kinds = st.sampled_from(
            ("value", "value", "dotted", "table", "implied", "many") if depth else ("value", "dotted")
        )
        chosen = [(name, self.draw(kinds)) for name in held]
        for name, kind in chosen:
            equals = self.draw(st.sampled_from((" = ", "=")))
            value = self.draw(st.sampled_from(VALUES))
            if kind == "value":
                self.put((*path, name), f"{self.key(name)}{equals}{value}")
            elif kind == "dotted":
                self.put((*path, name, "in"), f"{self.dotted((name, 'in'))}{equals}{value}", names=2)
        for name, kind in chosen:
            inner, here = (*names, name), (*path, name)
            if kind == "table":
                self.put(here, f"[{self.dotted(inner)}]")
                self.table(inner, here, depth - 1)
            elif kind == "implied":
                self.put((*here, "in"), f"[ {self.dotted((*inner, 'in'))} ]", names=2)
                self.table((*inner, "in"), (*here, "in"), depth - 1)
            elif kind == "many":
                for number in range(self.draw(st.integers(1, 3))):
                    self.put((*here, number), f"[[{self.dotted(inner)}]]", names=2)
                    self.table(inner, (*here, number), depth - 1)


@st.composite
def documents(draw):
    """Give a document with the line of each of its keys and tables."""
    page = Page(draw)
    page.table((), (), depth=3)
    newline = draw(st.sampled_from(("\n", "\r\n")))
    text = newline.join("\n".join(page.lines).split("\n")) + draw(st.sampled_from(("", newline)))
    return text, page.paths
