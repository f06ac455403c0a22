"""The product that a place is asked about: so many kilograms of a usual batch, a batch file, a filling of a plan."""

from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Final, get_args

from sourloam.base.errors import BadInput, Problem
from sourloam.base.figure import written
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.evidence.climates import load_climates
from sourloam.evidence.parameters import load_parameters
from sourloam.plan.words import Speech, when
from sourloam.science.batch.content import MASS, Content, ContentParameters, content_of
from sourloam.science.batch.product import Soundness
from sourloam.science.climate.climate import Climate
from sourloam.service.assemble import DEFAULT_CLIMATE, climate_of
from sourloam.service.ferment import Compiler
from sourloam.service.named import Named, is_of_book, site_named
from sourloam.service.product_of_batch import content_of_batch
from sourloam.site.facts import Facts
from sourloam.site.site import Site

MEMBERS: Final = 500
LEAST_KG: Final = 0.1  # for less nobody asks; a handful
USUAL_KG: Final = 10.0  # what a 20 L vessel gives, where nobody says how much there is
STATES: Final[tuple[Soundness, ...]] = get_args(Soundness)


@dataclass(frozen=True)
class AskedProduct:
    """What a place is asked with; what is left open has a default, which is said."""

    today: date
    on: date | None = None  # when it goes out: today, or the day on which the batch is due
    batch: str | None = None  # a batch file, or VESSEL/N of a site
    product: str | None = None  # "10 kg"
    site: Path | None = None
    place: str | None = None  # id of a place of that site
    state: str | None = None
    animal: bool | None = None  # meat, fish, egg or dairy in it
    is_anyway: bool = False  # go on although it is not ready, and say what will happen
    units: str | None = None
    members: int = MEMBERS
    named: Named | None = None  # the site, where it was read already


@dataclass(frozen=True)
class Given:
    """A product with the ground that it may go to."""

    content: Content
    on: date
    climate: Climate
    speech: Speech
    site: Site | None = None
    assumptions: tuple[str, ...] = ()

    @property
    def members(self) -> int:
        """Return in how many cases it is known: a batch that was followed has fewer than were asked for."""
        return self.content["mass_kg"].members.size


def product_of(asked: AskedProduct, compiler: Compiler | None = None) -> Given:
    """Return the product that is asked about, the site and the climate; a batch is followed, compiled if need be.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    _refuse(asked)
    named = asked.named
    if named is None and (asked.site or is_of_book(asked.batch, asked.site)):
        named = site_named(asked.site)
    site = named.site if named else None
    speech = Speech(asked.units or (site.keeper.units if site else "metric"))
    climate, assumed = _climate(asked, named)
    if asked.batch is not None:
        made = content_of_batch(
            asked.batch, asked.on, asked.today, site=asked.site, members=asked.members, compiler=compiler
        )
        return Given(as_asked(made.content, asked), made.on, climate, speech, site, (*made.assumptions, *assumed))
    content, told = _usual(asked, speech)
    return Given(content, asked.on or asked.today, climate, speech, site, (*told, *assumed))


def _climate(asked: AskedProduct, named: Named | None) -> tuple[Climate, tuple[str, ...]]:
    """Return the climate of the site, or of somewhere usual, and what was assumed of it."""
    if named is not None:
        climate, said = climate_of(named.site, named.folder)
        return climate, tuple(each.says for each in said)
    climate, _ = climate_of(Site(Facts("somewhere", asked.today), (), ()), Path())
    return climate, (f"Outdoors it has {load_climates()[DEFAULT_CLIMATE].words}, and lies in the north (--site).",)


def as_asked(content: Content, asked: AskedProduct) -> Content:
    """Return a content with the state and the animal matter that were written, where they were."""
    state = next((each for each in STATES if each == asked.state), content.state)
    animal = content.animal_matter if asked.animal is None else asked.animal
    return replace(content, state=state, animal_matter=animal)


def _usual(asked: AskedProduct, speech: Speech) -> tuple[Content, tuple[str, ...]]:
    """Return so many kilograms of a usual batch, and what was taken as given of it."""
    held = load_parameters(ContentParameters, "product", members=asked.members)
    kg = USUAL_KG if asked.product is None else _kg(asked.product, held.kg_per_l.value)
    mass = written("mass_kg", kg, "kg", words="the batch", typed=asked.product or "", members=asked.members)
    content = as_asked(content_of(mass, held, batch="the batch"), asked)
    dry, nitrogen, acid = (
        each.value for each in (held.dry_wb_frac, held.nitrogen_g_per_kg, held.titratable_mol_per_kg)
    )
    holds = f"{100.0 * dry:.0f} % dry matter, {nitrogen:g} g of nitrogen and {acid:g} mol of acid to a kilogram"
    told = [f"It is a usual batch of a mixed kitchen: {holds} (name a batch for your own)."]
    if asked.product is None:
        told.append(f"There is {speech.kg(kg)} of it, what a vessel of {speech.size(20.0)} gives (--product).")
    if asked.state is None:
        told.append("It is sour and ready (--state).")
    if asked.animal is None:
        told.append("No meat, fish, egg or dairy went in (--animal).")
    if asked.on is None:
        told.append(f"It goes out today, {when(asked.today)} {asked.today.year} (--on).")
    return content, tuple(told)


def _kg(text: str, kg_per_l: float) -> float:
    """Return a mass as it was written; a volume is weighed as a batch is, pressed."""
    try:
        read = read_quantity(text, (Dimension.MASS, Dimension.VOLUME))
    except BadQuantity as bad:
        raise BadInput("--product", (Problem("", bad.found, bad.remedy),)) from None
    kg = read.value * kg_per_l if read.dimension is Dimension.VOLUME else read.value
    if not LEAST_KG <= kg <= MASS.high:
        raise BadInput("--product", (Problem("", f'"{text}" is no batch;', 'write a mass such as "10 kg".'),))
    return kg


def _refuse(asked: AskedProduct) -> None:
    """Refuse options that do not go together, all of them at once."""
    problems = []
    if asked.batch is not None and asked.product is not None:
        problems.append(Problem("--product", "a batch is named already;", "leave one of the two out."))
    if asked.place is not None and asked.site is None:
        problems.append(Problem("--place", "a place is one of a site;", "name the site file: --site SITE."))
    if problems:
        raise BadInput("command line", tuple(problems))
