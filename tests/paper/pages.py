"""Plan pages that several tests share, and a reader of HTML that knows what a page must be."""

import re
from collections import Counter
from functools import lru_cache
from html.parser import HTMLParser

from sourloam.paper.plan_page import plan_page
from sourloam.service.plan import plan_site
from tests.plan.plans import ROOT

VOID = {"meta", "link", "br", "img", "input", "hr"}


@lru_cache(maxsize=4)
def viewed(name):
    return plan_site(ROOT / name)


@lru_cache(maxsize=4)
def paged(name):
    return plan_page(viewed(name))


class Page(HTMLParser):
    """A page as its elements: names, ids, links within, drawings and headings."""

    def __init__(self, text):
        super().__init__()
        self.open, self.names, self.ids = [], Counter(), Counter()
        self.targets, self.drawings, self.headings, self.outside = [], [], [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        held = dict(attrs)
        self.names[tag] += 1
        if "id" in held:
            self.ids[held["id"]] += 1
        if held.get("href", "").startswith("#"):
            self.targets.append(held["href"][1:])
        if tag == "svg":
            self.drawings.append(held)
        if re.fullmatch(r"h[1-6]", tag):
            self.headings.append(int(tag[1]))
        self.outside += [held[name] for name in ("src", "href", "xlink:href") if "//" in held.get(name, "")]
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        if tag in VOID:
            return
        assert self.open, f"</{tag}> closes nothing"
        assert self.open[-1] == tag, f"</{tag}> closes <{self.open[-1]}>"
        self.open.pop()
