"""What the tests of the ferment share: fillings, the packaged numbers, and the same without their spread."""

from dataclasses import fields, replace
from datetime import date

from sourloam.base.figure import leaf
from sourloam.base.spread import Spread
from sourloam.evidence.parameters import load_parameters
from sourloam.science.ferment.ferment import ferment
from sourloam.science.ferment.outcome import Filling
from sourloam.science.ferment.parameters import FermentParameters
from sourloam.science.inoculum.keeping import BranLot
from sourloam.science.vessel.contents import Contents
from tests.science.vessel.amounts import VESSEL

FERMENT = load_parameters(FermentParameters, "ferment")
SEALED = date(2027, 3, 10)
BUCKET = Contents(
    scraps_kg=12.0,
    bran_kg=0.24,
    scraps_dry_kg=2.4,
    dry_kg=2.61,
    carbon_g=1100.0,
    nitrogen_g=60.0,
    sodium_g=10.0,
    loose_l=30.0,
    pressed_l=18.0,
)


BRAN = BranLot(date(2027, 2, 1), 0.3)


def filling(contents=BUCKET, batch="blue/1", **keys):
    return Filling(batch, date(2027, 2, 24), SEALED, contents, **keys)


def fermented(temperatures_c, contents=BUCKET, batch="blue/1", parameters=FERMENT, age_d=0.0, bran=BRAN, **keys):
    days = temperatures_c if isinstance(temperatures_c, list | tuple) else (temperatures_c,) * 60
    return ferment(filling(contents, batch, age_d=age_d), days, bran, parameters, vessel=VESSEL, **keys)


def exactly(parameters, **values):
    """Return parameters that hold no chance: each at its median, or at what is given."""
    fixed = {
        each.name: leaf(
            each.name,
            Spread.exactly(values.get(each.name, getattr(parameters, each.name).value)),
            getattr(parameters, each.name).unit,
        )
        for each in fields(parameters)
    }
    return replace(parameters, **fixed)
