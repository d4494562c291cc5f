"""Tables from anywhere: a wrong file is refused with one sentence, right ones are read alike."""

import codecs
import os
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.exchange.errors import BadFileError
from greenroom.exchange.text_lines import LONGEST_LINE_BYTES, Limits, shown
from greenroom.exchange.text_table import LONGEST_CELL, choose_delimiter, open_table

LIMITS = Limits(megabytes=1, lines=1_000, columns=10, meaning="some rows")
BIG_ROWS = b"a\n" + (b"x" * 1_999 + b"\n") * 499  # 998,002 of 1,000,000 bytes


def assert_one_sentence(refusal: BadFileError, *parts: str) -> None:
    """Check that a refusal is one whole sentence for a person, and says what it should."""
    sentence = str(refusal)
    assert sentence.endswith(".")
    assert ". " not in re.sub("“[^”]*”", "", sentence)
    assert sentence.isprintable()
    assert len(sentence) < 400
    for part in parts:
        assert part in sentence


def rows_of(path: Path, legacy: str | None = None) -> list[list[str]]:
    with open_table(path, LIMITS, legacy) as table:
        return [list(table.header), *(cells for _, cells in table.rows())]


def refusal_of(path: Path, legacy: str | None = None) -> BadFileError:
    with pytest.raises(BadFileError) as caught:
        rows_of(path, legacy)
    return caught.value


def written(folder: Path, content: bytes, name: str = "list.csv") -> Path:
    path = folder / name
    path.write_bytes(content)
    return path


@pytest.mark.parametrize(
    ("content", "parts"),
    [
        (b"", ("list.csv", "empty", "header line")),
        (b"\n \n\r\n", ("blank lines", "header line")),
        (codecs.BOM_UTF8, ("blank lines",)),
        (b"a,b\n", ("header line but no row",)),
        (b"a,b\n\n,\n", ("header line but no row",)),
        (b"a,b\n1,\x002\n", ("not a text file",)),
        (b"a,b\n" + b"1,2\n" * 20_000 + b"\x00", ("more than 1,000 lines",)),
        (b"a,b\n1,\x072\n", ("line 2", "not plain text")),
        (b"a,b\n1,caf\xe9\n", ("line 2", "byte 6", "UTF-8")),
        ("a,b\n1,2\n".encode("utf-16"), ("UTF-16", "UTF-8")),
        (b"PK\x03\x04" + bytes(range(256)), ("workbook", "CSV")),
        (b"\xd0\xcf\x11\xe0" + bytes(range(256)), ("workbook", "CSV")),
        (b"a,b,c\n1,2,3\n4,5", ("line 3", "cut off", "2 cells", "3 are needed")),
        (b"a,b,c\n1,2\n4,5,6\n", ("line 2", "2 cells", "3 are needed")),
        (b"a,b,c\n1,2,3,4\n4,5,6\n", ("line 2", "4 cells", "3 are needed")),
        (b'a,b\n1,"2\n', ("line 2", "never closed", "cut off")),
        (b'a,b\n1,"2\n' + b"3,4\n" * 500, ("line 2", "never closed")),
        (b'a,b\n1,"2"3\n', ("line 2", "after a closing quotation mark")),
        (b"a,b\n1,2\r3,4\n", ("line 2", "stray line end")),
        (b",".join(b"c%d" % n for n in range(200)) + b"\n", ("line 1", "200 columns", "10 are allowed")),
        (b"a,b\n" + b"1,2\n" * 1_000, ("more than 1,000 lines", "some rows")),
        (b"a,b\n1," + b"x" * (LONGEST_CELL + 1) + b"\n", ("line 2", "cell 2", "2,001 characters")),
        (b"a,b\n1," + b"x" * (LONGEST_LINE_BYTES + 1), ("line 2", "too long")),
        (b"x" * 900_000, ("line 1", "too long")),
        (b"a,b\n" + b"1,2\n" * 300_000, ("too large", "1 MB")),
    ],
)
def test_a_wrong_file_is_refused_with_what_and_where_and_what_is_allowed(tmp_path, content, parts):
    assert_one_sentence(refusal_of(written(tmp_path, content)), "list.csv", *parts)


def test_what_is_not_there_is_said_to_be_missing(tmp_path):
    assert_one_sentence(refusal_of(tmp_path / "gone.csv"), "gone.csv", "not found")


def test_a_folder_is_not_taken_for_a_file(tmp_path):
    assert_one_sentence(refusal_of(tmp_path), tmp_path.name, "not a file")


def test_a_pipe_is_refused_without_waiting_on_it(tmp_path):
    os.mkfifo(tmp_path / "pipe.csv")
    assert_one_sentence(refusal_of(tmp_path / "pipe.csv"), "not a file")


def test_a_file_that_cannot_be_opened_is_refused(tmp_path):
    loop = tmp_path / "loop.csv"
    loop.symlink_to(loop)
    assert_one_sentence(refusal_of(loop), "loop.csv", "cannot be read")
    assert_one_sentence(refusal_of(tmp_path / ("x" * 5_000)), "cannot be read")
    assert_one_sentence(refusal_of(Path("a\0b")), "cannot be read")


def test_the_folder_of_a_file_is_not_told(tmp_path):
    assert str(tmp_path) not in str(refusal_of(written(tmp_path, b"")))


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", [b"", codecs.BOM_UTF8])
@pytest.mark.parametrize("last", ["", "end"])
def test_all_common_ways_to_write_a_table_read_alike(tmp_path, delimiter, end, mark, last):
    lines = [["Name", "Größe", "Note"], ["Ají", "1", "x"], ["Two words", "", "y"]]
    text = end.join(delimiter.join(cells) for cells in lines) + (end if last else "")
    assert rows_of(written(tmp_path, mark + text.encode())) == lines


def test_quoted_cells_keep_delimiters_marks_and_line_ends(tmp_path):
    content = b'a,b\n"one, two","say ""hot"""\n"first\nsecond", "after a blank"\n'
    assert rows_of(written(tmp_path, content))[1:] == [
        ["one, two", 'say "hot"'],
        ["first\nsecond", "after a blank"],
    ]


def test_a_quoted_cell_may_run_over_fifty_lines_and_no_more(tmp_path):
    assert len(rows_of(written(tmp_path, b'a\n"1' + b"\n2" * 49 + b'"\n'))) == 2
    refusal = refusal_of(written(tmp_path, b'a\n"1' + b"\n2" * 50 + b'"\n'))
    assert_one_sentence(refusal, "line 2", "never closed")


def test_a_row_is_told_by_the_line_it_begins_on(tmp_path):
    content = b'a,b\n\n"first\nsecond",2\n\n3,4\n'
    with open_table(written(tmp_path, content), LIMITS) as table:
        assert [line for line, _ in table.rows()] == [3, 6]


def test_blank_lines_and_blank_cells_past_the_header_do_no_harm(tmp_path):
    blank = b"\r" * (2 * LONGEST_CELL)
    table = b"a,b\n\n1,2,,\n,\n" + blank + b"\n3,4, \n"
    assert rows_of(written(tmp_path, table)) == [["a", "b"], ["1", "2"], ["3", "4"]]


def test_a_list_of_one_column_needs_no_delimiter(tmp_path):
    assert rows_of(written(tmp_path, b"Name\nRocoto\nManzano\n")) == [["Name"], ["Rocoto"], ["Manzano"]]


def test_text_in_an_older_encoding_is_read_only_where_that_is_allowed(tmp_path):
    path = written(tmp_path, "Name,Ort\nAjí,Köln\n".encode("cp1252"))
    assert rows_of(path, legacy="cp1252")[1] == ["Ají", "Köln"]
    assert_one_sentence(refusal_of(path), "line 2", "UTF-8")


@pytest.mark.parametrize("damage", [b"\xff", "é".encode()[:1]])
def test_damaged_utf8_is_refused_rather_than_read_as_something_else(tmp_path, damage):
    path = written(tmp_path, "Name,Ort\nAjí,Köln\nx,".encode() + damage)
    assert_one_sentence(refusal_of(path, legacy="cp1252"), "line 3", "UTF-8")


@pytest.mark.parametrize(
    ("lines", "delimiter"),
    [
        (["a;b;c", "1,5;2,5;3,5", "1,2;3;4"], ";"),
        (["a,b", "1;2;3,4", "x,y"], ","),
        (["a\tb", "1,2\t3,4"], "\t"),
        (["a|b|c", "1|2|3"], "|"),
        (["a;b;c", '"x;y;z;w",2,3'], ";"),
        (["only"], ","),
        ([], ","),
    ],
)
def test_the_delimiter_is_the_one_that_splits_the_lines_alike(lines, delimiter):
    assert choose_delimiter(lines) == delimiter


@given(st.text(max_size=300))
def test_anything_can_be_shown_in_a_sentence(text):
    assert shown(text).isprintable()
    assert len(shown(text)) <= 43


@given(
    st.lists(
        st.lists(st.text(alphabet='ab1 é",;|\t\n', max_size=8), min_size=3, max_size=3),
        min_size=1,
        max_size=20,
    )
)
def test_a_table_that_was_written_comes_back(tmp_path_factory, rows):
    """Quoted as RFC 4180 (2005), section 2, rules 5 to 7 say."""
    lines = [["x", "y", "z"], *rows]
    quoted = "".join(
        ",".join('"' + cell.replace('"', '""') + '"' for cell in cells) + "\r\n" for cells in lines
    )
    path = written(tmp_path_factory.mktemp("table"), quoted.encode())
    expected = [cells for cells in rows if any(cell.strip() for cell in cells)]
    if expected:
        assert rows_of(path)[1:] == expected
    else:
        assert_one_sentence(refusal_of(path), "no row")


def test_a_column_without_a_name_is_told_by_its_number(tmp_path):
    with open_table(written(tmp_path, b"a,,c\n1,2,3\n"), LIMITS) as table:
        refusal = table.refusal("this will not do", line=2, column=1)
    assert str(refusal) == "list.csv, line 2, column number 2: this will not do."


@pytest.mark.parametrize(
    ("fits", "too_much"),
    [
        (b"a,b\n" + b"1,2\n" * 999, b"a,b\n" + b"1,2\n" * 1_000),
        (
            b",".join([b"c"] * 10) + b"\n" + b"1," * 9 + b"1",
            b",".join([b"c"] * 11) + b"\n" + b"1," * 10 + b"1",
        ),
        (b"a\n" + b"x" * LONGEST_CELL + b"\n", b"a\n" + b"x" * (LONGEST_CELL + 1) + b"\n"),
        (
            b"a\n" + b" " * (LONGEST_LINE_BYTES - 1) + b"1\n2\n",
            b"a\n" + b" " * LONGEST_LINE_BYTES + b"1\n2\n",
        ),
        (b"a\n" + b" " * (LONGEST_LINE_BYTES - 1) + b"1", b"a\n" + b" " * LONGEST_LINE_BYTES + b"1"),
        (BIG_ROWS + b"y" * 1_998, BIG_ROWS + b"y" * 1_999),
    ],
)
def test_each_limit_is_allowed_and_one_more_is_not(tmp_path, fits, too_much):
    assert len(rows_of(written(tmp_path, fits))) > 1
    assert_one_sentence(refusal_of(written(tmp_path, too_much)), "allowed")


def test_text_is_shown_whole_up_to_its_limit_and_then_cut():
    assert shown("x" * 40) == f"“{'x' * 40}”"
    assert shown("x" * 41) == f"“{'x' * 40}…”"
    assert shown("a\tb") == "“a�b”"


def test_the_reason_why_a_file_cannot_be_opened_is_told(tmp_path):
    assert "(File name too long)" in str(refusal_of(tmp_path / ("x" * 5_000)))
    assert "(its name is not allowed here)" in str(refusal_of(Path("a\0b")))


def test_a_last_line_without_an_end_still_helps_to_find_the_delimiter(tmp_path):
    assert rows_of(written(tmp_path, b"a;b,c\n1;2")) == [["a", "b,c"], ["1", "2"]]


def test_only_a_last_line_seems_cut_off(tmp_path):
    for content in (b"a,b,c\n1,2\n4,5,6\n", b"a,b,c\n1,2,3,4\n"):
        assert "cut off" not in str(refusal_of(written(tmp_path, content)))
