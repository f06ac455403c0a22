"""Use case: a first site file from a few answers."""

import re
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Final

from sourloam.base.errors import BadInput, Problem, Surroundings
from sourloam.evidence.climates import load_climates
from sourloam.evidence.parameters import load_parameters
from sourloam.site.answers import Answers
from sourloam.site.draft import Draft, Ground, HouseholdParameters, Region, draft_of
from sourloam.sitefile.first import write_draft

LONGEST_ID: Final = 40


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
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("w" if overwrite else "x", encoding="utf-8") as file:
            file.write(write_draft(draft))
    except OSError as error:
        raise Surroundings(f"{path} cannot be written: {error.strerror}.", "Name a file in another folder.") from error


def _id_of(name: str) -> str:
    """Return an id made of a name: what a person would have to write."""
    letters = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")
    id_ = letters if letters[:1].isalpha() else f"site-{letters}".strip("-")
    return id_[:LONGEST_ID].rstrip("-")
