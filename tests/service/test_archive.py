"""A copy of a logbook is the logbook; one that was changed, or is no copy, is refused in words and leaves nothing."""

import json
import zipfile

import pytest

from sourloam.base.errors import BadInput, Surroundings
from sourloam.exchange.members import MOST_MEMBERS
from sourloam.logbook import entries as of
from sourloam.logbook.entry import plain
from sourloam.service.archive import backup, restore
from sourloam.service.book import Book, sites
from sourloam.service.record import verify
from sourloam.store import log
from tests.logbook.days import book as entries_of
from tests.logbook.days import layer


@pytest.fixture
def here(tmp_path):
    address = str(tmp_path / "here.sourloam")
    for site, values in (("yard", ((0, layer()), (5, of.Sealed("blue-1")))), ("other", ((0, layer("green")),))):
        held = entries_of(*values)
        log.append(address, site, [], lambda _, it=held: [(each.id, log.text_of(plain(each))) for each in it])
    return address


def test_a_copy_makes_the_same_logbook(here, tmp_path):
    copy, there = tmp_path / "copy.zip", str(tmp_path / "there.sourloam")
    assert backup(here, copy) == {"other": 2, "yard": 3}
    assert restore(copy, there) == {"other": 2, "yard": 3}
    for site in ("yard", "other"):
        assert log.lines(there, site) == log.lines(here, site)
        assert verify(Book(there, site)) == (len(log.lines(here, site)), ())
    assert restore(copy, there) == {"other": 0, "yard": 0}


def test_a_copy_replaces_no_file_and_no_site(here, tmp_path):
    copy = tmp_path / "copy.zip"
    backup(here, copy)
    with pytest.raises(BadInput, match="is there already"):
        backup(here, copy)
    log.append(here, "yard", [], lambda _: [("more", log.text_of(plain(entries_of((9, layer("green")))[1])))])
    with pytest.raises(BadInput, match='holds "yard" already, with other lines'):
        restore(copy, here)


def rewritten(copy, to, change):
    with zipfile.ZipFile(copy) as old, zipfile.ZipFile(to, "w") as new:
        for each in old.infolist():
            new.writestr(each.filename, change(each.filename, old.read(each)))
    return to


def test_a_changed_line_in_a_copy_is_found_and_nothing_is_taken(here, tmp_path):
    backup(here, tmp_path / "copy.zip")
    bad = rewritten(tmp_path / "copy.zip", tmp_path / "bad.zip", lambda _, held: held.replace(b"blue-1", b"blue-2"))
    with pytest.raises(BadInput, match="its lines are not those that were copied"):
        restore(bad, str(tmp_path / "there.sourloam"))
    assert sites(str(tmp_path / "there.sourloam")) == ()


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("../away.jsonl", "outside its folder"),
        ("/etc/away", "outside its folder"),
        ("a\\b", "outside its folder"),
        ("folder/", "outside its folder"),
        ("c:away", "outside its folder"),
    ],
)
def test_a_member_of_an_unsafe_name_is_refused(tmp_path, name, says):
    path = tmp_path / "bad.zip"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr(name, "x")
    with pytest.raises(BadInput, match=says):
        restore(path, str(tmp_path / "there.sourloam"))


def test_a_member_that_blows_up_is_refused_before_it_is_read(tmp_path):
    path = tmp_path / "bomb.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("yard.jsonl", b"0" * 20_000_000)
    with pytest.raises(BadInput, match="20000000 bytes unpacked"):
        restore(path, str(tmp_path / "there.sourloam"))


def test_too_many_members_are_refused(tmp_path):
    path = tmp_path / "many.zip"
    with zipfile.ZipFile(path, "w") as archive:
        for each in range(MOST_MEMBERS + 1):
            archive.writestr(f"{each}", "")
    with pytest.raises(BadInput, match="it holds 1001 files"):
        restore(path, str(tmp_path / "there.sourloam"))


def test_a_link_in_an_archive_is_refused(tmp_path):
    path = tmp_path / "link.zip"
    member = zipfile.ZipInfo("yard.jsonl")
    member.external_attr = 0o120777 << 16
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr(member, "/etc/passwd")
    with pytest.raises(BadInput, match="it is no plain file"):
        restore(path, str(tmp_path / "there.sourloam"))


@pytest.mark.parametrize("held", [b"", b"Dear yard", json.dumps({"format": 1}).encode()])
def test_what_is_no_copy_is_refused_in_words(tmp_path, held):
    path = tmp_path / "letter.zip"
    path.write_bytes(held)
    with pytest.raises(BadInput, match="no whole archive"):
        restore(path, str(tmp_path / "there.sourloam"))
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("manifest.json", held)
    with pytest.raises(BadInput, match="no copy of a logbook"):
        restore(path, str(tmp_path / "there.sourloam"))


def test_a_copy_that_is_not_there_is_told(tmp_path):
    with pytest.raises(Surroundings, match="cannot be read"):
        restore(tmp_path / "none.zip", str(tmp_path / "there.sourloam"))
