"""Plans that several tests share: each is made once in a process."""

from datetime import timedelta
from functools import lru_cache
from pathlib import Path

from sourloam.plan.simulated import living
from sourloam.plan.year import plan_year
from sourloam.service.assemble import question_of, site_file
from tests.fleet.sites import question

ROOT = Path(__file__).parents[2]
DEMO = "examples/quillet_yard.toml"
PAILS = "tests/sites/two_vessels.toml"
FLAT = "tests/sites/flat.toml"
FILES = (DEMO, PAILS, FLAT)

# A site with a bed that is closed in May, bran on hand until summer and serum in the cold.
GARDEN = {
    "rest": '[[bed]]\nid = "beans"\narea = "30 m2"\ndug = "strips"\n'
    '[[bed.planting]]\ncrop = "tomato"\non = 2027-06-12\nuntil = 2027-10-01\n'
    '[stock]\nbran = "2 kg"\nbran_made = 2027-02-20\nserum = "300 ml"\n',
    "site": 'format = 1\n[site]\nid = "garden"\nstart = 2027-03-01\nclimate = "mild-maritime"\nindoors = "18 C"\n'
    'closed = ["2027-05-01 to 2027-05-31"]\n',
}


@lru_cache(maxsize=8)
def asked(name, days_later=0):
    read = site_file(ROOT / name)
    return question_of(read, (ROOT / name).parent, today=read.site.facts.start + timedelta(days=days_later))


@lru_cache(maxsize=8)
def planned(name, days_later=0):
    return plan_year(asked(name, days_later))


@lru_cache(maxsize=8)
def lived(name):
    asking = asked(name)
    return living(asking)(asking.site)


@lru_cache(maxsize=1)
def garden():
    """Return the question, the life and the plan of the garden."""
    asking = question(**GARDEN)
    return asking, living(asking)(asking.site), plan_year(asking)
