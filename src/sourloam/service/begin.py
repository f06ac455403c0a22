"""Use case: a first site file from a few answers."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from sourloam.base.errors import BadInput, Problem
from sourloam.base.kinds import id_of
from sourloam.evidence.climates import load_climates
from sourloam.evidence.parameters import load_parameters
from sourloam.service.files import write_whole
from sourloam.site.answers import Answers
from sourloam.site.draft import Draft, Ground, HouseholdParameters, Region, draft_of
from sourloam.sitefile.first import write_draft


def regions() -> Mapping[str, Region]:
    """Return the typical climates that a person may choose from."""
    return {name: Region(each.words, each.like, each.latitude_deg) for name, each in load_climates().items()}


def begin(answers: Answers, path: Path, start: date) -> Draft:
    """Return the first site of the answers; its id is made from its name, or from that of the file."""
    household = load_parameters(HouseholdParameters, "household")
    return draft_of(answers, Ground(_id_of(answers.name or path.stem), start, household, regions()))


def refuse_taken(path: Path, *, overwrite: bool) -> None:
    """Refuse a path at which no new file can be written.

    Raises
    ------
    BadInput
        If it is a folder, or a file that nobody said may be overwritten.
    """
    if path.is_dir():
        raise BadInput(path.name, (Problem("", "this is a folder;", f"name a file in it: {path / 'site.toml'}."),))
    if path.exists() and not overwrite:
        remedy = "Name another one, or say --overwrite to write over it."
        raise BadInput(path.name, (Problem("", "this file is there already, and is left as it is.", remedy),))


def keep_site(draft: Draft, path: Path, *, overwrite: bool = False) -> None:
    """Write the site file; one that is there stays, unless it may be overwritten.

    Raises
    ------
    BadInput
        If a file is there already.
    Surroundings
        If it cannot be written.
    """
    refuse_taken(path, overwrite=overwrite)
    write_whole(path, write_draft(draft).encode(), otherwise="Name a file in another folder.")


def _id_of(name: str) -> str:
    """Return an id made of a name: what a person would have to write."""
    letters = id_of(name)
    return letters if letters[:1].isalpha() else id_of(f"site-{letters}")
