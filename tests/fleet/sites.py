"""Small sites for tests: written as a person would, read as the command reads them, lived for a year."""

from functools import lru_cache
from pathlib import Path

from sourloam.fleet.setting import medians, set_up
from sourloam.fleet.simulate import simulate
from sourloam.service.assemble import knowledge, known_names, question_of
from sourloam.sitefile.read import parse_site

KNOWN = lru_cache(maxsize=1)(knowledge)
NAMES = lru_cache(maxsize=1)(known_names)
HEAD = 'format = 1\n[site]\nid = "yard"\nstart = 2027-03-01\nclimate = "mild-maritime"\nindoors = "20 C"\n'
USUAL = {
    "site": HEAD,
    "stream": '[[stream]]\nid = "kitchen"\namount = "5 kg/week"\n',
    "vessel": '[[vessel]]\nid = "pail"\ncount = 3\nvolume = "20 L"\n',
    "taker": '[[taker]]\nid = "neighbour"\nkind = "neighbour"\nlitres = "200 L"\n',
    "keeper": '[keeper]\ndays = ["wed", "sat"]\n',
    "rest": "",
}


def question(**tables):
    """Return the question of the usual site with some of its tables written anew."""
    text = "\n".join((USUAL | tables).values())
    return question_of(parse_site(text, "yard.toml", NAMES()), Path())


def set_out(asked):
    """Return the situation and the world of a site on its first day."""
    return set_up(asked.site, asked.year, medians(asked.knowledge))


def lived(asked, days=365):
    situation, world = set_out(asked)
    return simulate(situation, days, world)
