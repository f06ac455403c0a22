"""`sitefile.read`: a file that can be none is refused before it is understood, and every refusal says what to do."""

import os
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import BadInput
from sourloam.sitefile.read import LARGEST_BYTES, parse_site, read_site, read_text
from sourloam.sitefile.write import write_site
from tests.site.strategies import sites
from tests.sitefile.known import KNOWN
from tests.sitefile.yard import YARD, told

EXAMPLE = "see examples/quillet_yard.toml."
TOML = 'Quantities stand in quotes, tables in brackets: volume = "18 L" under [[vessel]].'


def refusal(path):
    with pytest.raises(BadInput) as caught:
        read_site(path, KNOWN)
    return str(caught.value)


def put(folder, held, name="yard.toml"):
    path = folder / name
    path.write_bytes(held if isinstance(held, bytes) else held.encode())
    return path


def test_a_site_file_is_read(tmp_path):
    read = read_site(put(tmp_path, YARD), KNOWN)
    assert [each.id for each in read.site.vessels] == ["blue"]
    assert read.site.beds[0].plantings[0].crop == "lettuce"
    assert "It has a tap or a nested bucket for the liquid." in [each.says for each in read.assumptions]


@pytest.mark.parametrize("held", [YARD.replace("\n", "\r\n"), "\ufeff" + YARD, YARD.replace("\n", "\r"), YARD.strip()])
def test_the_editor_that_saved_it_does_not_matter(tmp_path, held):
    assert read_site(put(tmp_path, held), KNOWN) == read_site(put(tmp_path, YARD), KNOWN)


@pytest.mark.parametrize("held", ["", " \n\t\r\n", "\ufeff", "\ufeff\n"])
def test_an_empty_file_is_refused(tmp_path, held):
    want = f"yard.toml: it is empty; begin with format = 1 and a [site] table; {EXAMPLE}"
    assert refusal(put(tmp_path, held)) == want


def test_a_folder_is_refused(tmp_path):
    (tmp_path / "yard").mkdir()
    want = "yard: this is a folder; name the site file in it, for example yard.toml."
    assert refusal(tmp_path / "yard") == want


def test_a_file_that_is_not_there_is_refused_and_a_like_name_offered(tmp_path):
    put(tmp_path, YARD, "yard.toml")
    put(tmp_path, YARD, "another.toml")
    assert refusal(tmp_path / "yrd.toml") == "yrd.toml: there is no such file. Did you mean yard.toml?"


def test_where_no_name_is_like_it_the_files_of_the_folder_are_named(tmp_path):
    put(tmp_path, YARD, "yard.toml")
    put(tmp_path, YARD, "beds.toml")
    assert refusal(tmp_path / "q") == "q: there is no such file. In that folder: beds.toml, yard.toml."


@pytest.mark.parametrize("name", ["yard.toml", "no/such/yard.toml"])
def test_where_there_is_no_site_file_at_all_the_example_is_named(tmp_path, name):
    assert refusal(tmp_path / name) == f"yard.toml: there is no such file. Check the name, or write one: {EXAMPLE}"


@pytest.mark.parametrize("name", ["x" * 5000, "nul\0.toml"])
def test_a_name_that_no_file_can_have_is_refused(tmp_path, name):
    assert re.search(r": (it cannot be opened \(|there is no such file\.)", refusal(tmp_path / name))


def test_a_file_of_over_a_megabyte_is_refused_by_its_size_before_it_is_read(tmp_path, monkeypatch):
    path = put(tmp_path, b"")
    os.truncate(path, 2_300_000)
    monkeypatch.setattr(type(path), "open", lambda *_args, **_more: pytest.fail("it was opened"))
    assert refusal(path) == "yard.toml: it is 2.3 MB large; a site file is a page or two, 1 MB at most."


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no endless device here")
def test_a_device_without_an_end_is_given_up_after_a_megabyte():
    want = "zero: it is 1.0 MB large; a site file is a page or two, 1 MB at most."
    assert refusal(Path("/dev/zero")) == want


def test_a_file_of_just_a_megabyte_is_read(tmp_path):
    text = YARD + "#" * (LARGEST_BYTES - len(YARD))
    assert len(read_text(put(tmp_path, text))) == LARGEST_BYTES


@pytest.mark.parametrize(
    ("held", "byte"), [(b'name = "caf\xe9"', 12), (YARD.encode("utf-16"), 1), (b"\xef\xbb\xbf\xff", 4)]
)
def test_what_is_not_utf8_is_refused(tmp_path, held, byte):
    assert refusal(put(tmp_path, held)) == f"yard.toml: byte {byte} is not UTF-8; save it as UTF-8 text."


def test_a_file_that_may_not_be_read_is_refused(tmp_path, monkeypatch):
    path = put(tmp_path, YARD)

    def locked(*_args, **_more):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(type(path), "open", locked)
    assert refusal(path) == "yard.toml: it cannot be opened (Permission denied); check the name, and who may read it."


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            "format = 1\nvolume = 18 L\n",
            (
                "yard.toml: 1 fault to mend first\n"
                f"  line 2: this is not TOML: expected newline or end of document after a statement. {TOML}"
            ),
        ),
        (
            "format = 1\n[site]\nstart = 2027-02-30\n",
            (f"yard.toml: 1 fault to mend first\n  line 3: this is not TOML: invalid date or datetime. {TOML}"),
        ),
        (
            "format = 1\n[site]\n[site]\n",
            (f"yard.toml: 1 fault to mend first\n  line 3: this is not TOML: cannot declare ('site',) twice. {TOML}"),
        ),
        ('format = 1\nname = "', f"yard.toml: this is not TOML: unterminated string. {TOML}"),
    ],
)
def test_what_is_not_toml_is_refused_with_its_line(text, says):
    assert told(text) == says


def test_a_number_of_five_thousand_digits_is_refused():
    assert told(f"format = {'9' * 5000}").startswith("yard.toml: this is not TOML: exceeds the limit")


@pytest.mark.parametrize("text", ["x = " + "[" * 5000 + "]" * 5000, YARD.replace('"18 L"', "[" * 400 + "]" * 400)])
def test_values_that_lie_too_deep_in_one_another_are_refused(text):
    assert told(text).startswith("yard.toml: ")


@given(text=st.text())
def test_any_text_is_refused_in_words(text):
    assert told(text).startswith("yard.toml: ")


@given(
    text=st.lists(
        st.sampled_from(
            [
                *YARD.splitlines(),
                *('volume = "', "[[vessel]]", "[stream]", "count = 3", "x = nan", "on = 2027-03-01T10:00"),
            ]
        )
    ).map("\n".join)
)
def test_any_shuffle_of_lines_is_a_site_or_is_refused_in_words(text):
    assert is_site_or_refused(text)


@given(site=sites(), data=st.data())
def test_a_site_file_with_a_slip_of_the_pen_is_a_site_or_is_refused_in_words(site, data):
    text = write_site(site)
    at = data.draw(st.integers(0, len(text)))
    slip = data.draw(st.text(max_size=3) | st.sampled_from(["nan", "true", "-", '"', "[", "= 1\n", "9" * 9]))
    assert is_site_or_refused(text[:at] + slip + text[at + data.draw(st.integers(0, 5)) :])


def is_site_or_refused(text):
    try:
        parse_site(text, "yard.toml", KNOWN)
    except BadInput as refused:
        return all(str(each).isprintable() and each.found for each in refused.problems)
    return True


@given(held=st.binary())
def test_any_bytes_are_a_site_or_are_refused_in_words(tmp_path_factory, held):
    path = put(tmp_path_factory.getbasetemp(), held)
    assert refusal(path).startswith("yard.toml: ")
