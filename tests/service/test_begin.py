"""What happens to a site file that is there when the new one cannot be written."""

import errno
from datetime import date
from pathlib import Path

import pytest

from sourloam.base.errors import BadInput, Surroundings
from sourloam.service.begin import begin, keep_site
from sourloam.site.answers import Answers

OLD = "format = 1\n# a year of corrections by hand\n"


def a_draft():
    return begin(Answers(), Path("site.toml"), date(2027, 3, 1))


def full_disk(path, content):
    with path.open("wb") as file:
        file.write(content[: len(content) // 2])
    raise OSError(errno.ENOSPC, "No space left on device")


def test_a_full_disk_leaves_the_old_site_file_as_it_was(tmp_path, monkeypatch):
    site = tmp_path / "site.toml"
    site.write_text(OLD, "utf-8")
    monkeypatch.setattr(Path, "write_bytes", full_disk)
    with pytest.raises(Surroundings, match="No space left"):
        keep_site(a_draft(), site, overwrite=True)
    assert site.read_text("utf-8") == OLD
    assert list(tmp_path.iterdir()) == [site]


def test_a_site_file_that_is_there_is_not_written_over_unasked(tmp_path):
    site = tmp_path / "site.toml"
    site.write_text(OLD, "utf-8")
    with pytest.raises(BadInput):
        keep_site(a_draft(), site)
    assert site.read_text("utf-8") == OLD


@pytest.mark.parametrize(
    ("name", "id_"), [("3 Elm Row", "site-3-elm-row"), ("Quillet Yard", "quillet-yard"), ("園", "site")]
)
def test_an_id_is_made_of_the_name(name, id_):
    assert begin(Answers(name=name), Path("site.toml"), date(2027, 3, 1)).site.facts.id == id_
