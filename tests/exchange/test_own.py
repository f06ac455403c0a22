"""`exchange.own`: a keeper's own materials as a table."""

import pytest

from sourloam.base.errors import BadInput
from sourloam.exchange.own import read_own


def table(tmp_path, text):
    path = tmp_path / "own.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_only_what_is_known_need_be_said(tmp_path):
    (read,) = read_own(table(tmp_path, "id,name,water,salt,piece\nmy-kimchi,old kimchi,90 %,2.5 %,\n"))
    assert (read.name, read.water_wb_frac, read.salt_wb_frac, read.piece_kg) == ("old kimchi", 0.9, 0.025, None)


def test_faults_are_named_with_their_line(tmp_path):
    with pytest.raises(BadInput) as caught:
        read_own(table(tmp_path, "id,water\nmy-kimchi,90 %\nmy-cake,190 %\nmy-tea,wet\n"))
    assert [each.line for each in caught.value.problems] == [3, 4]


def test_more_than_the_whole_is_refused(tmp_path):
    with pytest.raises(BadInput, match="comes to more than the whole"):
        read_own(table(tmp_path, "id,water,fat\nmy-cake,60 %,60 %\n"))


def test_a_table_without_ids_is_refused(tmp_path):
    with pytest.raises(BadInput, match="there is no column id; the columns are id, name, like"):
        read_own(table(tmp_path, "name,water\nkimchi,90 %\n"))
