"""A logbook goes out as lines or as a table and comes in the same; a table of past records comes in row by row."""

import csv
import json
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import BadInput
from sourloam.exchange.cells import back, safe
from sourloam.logbook import entries as of
from sourloam.logbook.entry import plain
from sourloam.service.book import Book, entries, sites
from sourloam.service.moving import export_lines, import_lines
from sourloam.service.past_records import keep_past, look
from sourloam.service.record import verify
from sourloam.service.so_far import state_of
from sourloam.service.tables import write_tables
from sourloam.store import log
from tests.logbook.days import book as entries_of
from tests.logbook.days import known, layer

KNOWN = known()


@pytest.fixture
def here(tmp_path):
    made = Book(str(tmp_path / "here.sourloam"), "yard")
    days = ((0, layer()), (5, of.Sealed("blue-1")), (6, of.Note('=HYPERLINK("x")\n+1 "two", three', "@yard")))
    held = entries_of(*days, (3, layer("green")), (7, of.Withdrawn("e2", "-wrong")))
    log.append(made.where, made.site, [], lambda _: [(each.id, log.text_of(plain(each))) for each in held])
    return made


def lines_in(book, tmp_path):
    path = tmp_path / "lines.jsonl"
    path.write_text("".join(f"{each}\n" for each in export_lines(book)), "utf-8")
    return path


@pytest.mark.parametrize("way", ["lines", "table"])
def test_what_goes_out_comes_in_the_same(here, tmp_path, way):
    path = lines_in(here, tmp_path) if way == "lines" else write_tables(here, tmp_path / "table.csv")[0]
    there, new = import_lines(path, str(tmp_path / "there.sourloam"))
    assert new == 6
    assert log.lines(there.where, "yard") == log.lines(here.where, "yard")
    assert verify(there) == (6, ())
    assert state_of(there, KNOWN) == state_of(here, KNOWN)
    assert import_lines(path, there.address)[1] == 0


def test_a_table_holds_no_cell_that_a_spreadsheet_works_out(here, tmp_path):
    table, _ = write_tables(here, tmp_path / "table.csv")
    cells = [cell for row in csv.reader(table.read_text("utf-8").splitlines(keepends=True)) for cell in row]
    assert not [each for each in cells if each.startswith(("=", "+", "-", "@", "\t", "\r"))]


def test_the_description_names_every_column_as_the_table_schema_wants(here, tmp_path):
    """Frictionless Data, Table Schema: field types and the required keys of a tabular data resource."""
    table, beside = write_tables(here, tmp_path / "table.csv")
    resource = json.loads(beside.read_text("utf-8"))["resources"][0]
    types = {"string", "number", "integer", "boolean", "object", "array", "date", "time", "datetime", "any"}
    header = next(csv.reader(table.read_text("utf-8").splitlines()))
    assert [each["name"] for each in resource["schema"]["fields"]] == header
    assert {each["type"] for each in resource["schema"]["fields"]} <= types
    assert resource["path"] == "table.csv"
    assert {"name", "profile", "schema"} <= resource.keys()


@given(st.text(max_size=30))
def test_a_cell_comes_back_as_it_was_and_is_never_a_formula(text):
    assert back(safe(text)) == text
    assert not safe(text).startswith(("=", "+", "-", "@"))


def test_a_changed_row_of_a_table_is_found_and_nothing_is_kept(here, tmp_path):
    table, _ = write_tables(here, tmp_path / "table.csv")
    table.write_text(table.read_text("utf-8").replace("0.06", "0.07", 1), "utf-8", newline="")
    with pytest.raises(BadInput, match="line 2: it is not as it was exported"):
        import_lines(table, str(tmp_path / "there.sourloam"))
    assert sites(str(tmp_path / "there.sourloam")) == ()


HOSTILE = st.one_of(
    st.text(max_size=80),
    st.recursive(st.none() | st.integers() | st.text(max_size=5), st.lists, max_leaves=5).map(json.dumps),
)


@given(st.lists(HOSTILE, max_size=4))
def test_whatever_stands_in_a_file_is_refused_in_words(tmp_path_factory, texts):
    folder = tmp_path_factory.mktemp("hostile")
    for name in ("lines.jsonl", "table.csv"):
        (folder / name).write_text("\n".join(texts), "utf-8", newline="")
        with pytest.raises(BadInput):
            import_lines(folder / name, str(folder / "book.sourloam"))
    assert sites(str(folder / "book.sourloam")) == ()


PAST = """Date,Bucket,Weight (kg),What,Bran (g),Remarks
2027-03-02,blue-1,1.5,vegetable scraps,60,first
2027-03-03,blue-1,500,vegetable scraps,,too much
02/03/2027,blue-1,1,bread,20,which day?
2027-03-03,purple,1,bread,20,no such
2027-03-04,blue-2,1,bread,20,=SUM(A1)
"""


@pytest.fixture
def past(tmp_path):
    path = tmp_path / "past.csv"
    path.write_text(PAST, "utf-8")
    made = Book(str(tmp_path / "book.sourloam"), "yard")
    held = entries_of()
    log.append(made.where, made.site, [], lambda _: [(each.id, log.text_of(plain(each))) for each in held])
    return made, path


def test_the_mapping_is_shown_before_anything_is_kept(past):
    book, path = past
    seen = look(path, {})
    assert [each[1] for each in seen.columns] == ["date", "vessel", "amount", "material", "bran", "note"]
    assert seen.first[0] == ("2027-03-02", "blue-1 1.5 kg vegetable scraps, 60 g bran")
    assert len(entries(book)) == 1


def test_one_row_that_cannot_be_keeps_all_out(past):
    book, path = past
    told = keep_past(book, path, {})
    assert (told.new, [number for number, _ in told.refused]) == (0, [3, 4, 5])
    assert len(entries(book)) == 1


def test_the_rest_is_kept_once_and_what_was_mended_comes_after(past):
    book, path = past
    told = keep_past(book, path, {}, is_all=False)
    assert told.new == 2
    assert "cannot have been taken: by the record there are" in dict(told.refused)[3]
    assert keep_past(book, path, {}, is_all=False).known == 2
    aside = Path(told.aside)
    assert "why not" in aside.read_text("utf-8")
    mended = aside.read_text("utf-8").replace("02/03/2027", "2027-03-02").replace("purple", "green")
    aside.write_text(mended.replace("500", "2"), "utf-8")
    again = keep_past(book, aside, {}, is_all=False)
    assert (again.new, again.refused) == (3, ())
    assert verify(book) == (6, ())
    assert state_of(book, KNOWN).batches["blue-2/1"].scraps_kg == pytest.approx(1.0)


def test_a_column_may_be_named(past):
    _, path = past
    assert look(path, {"Remarks": "", "What": "material"}).columns[5][1] == ""
    with pytest.raises(BadInput, match="is no column of the table"):
        look(path, {"Colour": "note"})


@given(st.text(max_size=300))
def test_whatever_table_is_handed_over_is_read_or_refused_in_words(tmp_path_factory, text):
    path = tmp_path_factory.mktemp("table") / "t.csv"
    path.write_text(text, "utf-8", newline="", errors="replace")
    with suppress(BadInput):
        assert look(path, {}).rows >= 0
