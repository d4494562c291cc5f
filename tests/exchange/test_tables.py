"""Tables: what a list or chart shows is what leaves the program, readable anywhere and harmless everywhere.

RFC 4180: Shafranovich, Y. 2005, Common Format and MIME Type for Comma-Separated Values Files, section 2.
OWASP: OWASP Foundation, "CSV Injection" (attack page): cells that begin with = + - @, tab (0x09) or carriage
return (0x0D) are to be made text by a single quote before them. Both from memory, wording not quoted.
"""

import csv
import io
from datetime import UTC, date, datetime, timedelta, timezone

import pandas
import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.exchange.tables.csv_text import (
    BOM,
    cell_text,
    csv_text,
    guarded,
    html_text,
    tsv_text,
    unguarded,
)
from greenroom.exchange.tables.table import Column, Kind, Table, TableError

SUMMER_TIME = timezone(timedelta(hours=2))
TEXT = Column("name", "Name")
SEEN = Table.of(
    "Seen",
    (
        TEXT,
        Column("count", "Count", Kind.WHOLE),
        Column("low", "Night", Kind.NUMBER, "°C"),
        Column("up", "Up", Kind.YES_NO),
        Column("day", "Day", Kind.DATE),
        Column("at", "At", Kind.MOMENT),
    ),
    [
        ("Ñandú, “wild”", 3, -2.5, True, date(2027, 5, 4), datetime(2027, 5, 4, 9, 5, tzinfo=SUMMER_TIME)),
        ('says "hot"\nand means it', None, None, None, None, None),
        ("=HYPERLINK(1)", 0, 0.1, False, date(1999, 12, 31), datetime(2027, 1, 1, tzinfo=UTC)),
    ],
)


def test_a_file_is_written_as_rfc_4180_says():
    """Sections 2.1 (CRLF), 2.3 (header), 2.5 and 2.6 (quotes round commas, quotes and line ends), 2.7
    (a quote inside is written twice)."""
    lines = csv_text(SEEN).split("\r\n")
    assert lines[0] == "Name,Count,Night (°C),Up,Day,At"
    assert lines[1] == '"Ñandú, “wild”",3,-2.5,true,2027-05-04,2027-05-04T09:05:00+02:00'
    assert lines[2] == '"says ""hot""\nand means it",,,,,'
    assert lines[3] == "'=HYPERLINK(1),0,0.1,false,1999-12-31,2027-01-01T00:00:00Z"
    assert lines[4:] == [""]


def test_a_library_of_tables_reads_the_same_cells_back(tmp_path):
    """Reference: pandas, with the byte order mark that spreadsheets need."""
    file = tmp_path / "seen.csv"
    file.write_bytes(csv_text(SEEN, bom=True).encode())
    frame = pandas.read_csv(file)
    assert list(frame.columns) == list(SEEN.headers)
    assert frame["Name"].tolist() == ["Ñandú, “wild”", 'says "hot"\nand means it', "'=HYPERLINK(1)"]
    assert frame["Night (°C)"].dropna().tolist() == [-2.5, 0.1]
    assert frame["Count"].isna().tolist() == [False, True, False]
    assert pandas.to_datetime(frame["Day"].dropna()).dt.year.tolist() == [2027, 1999]


def test_the_mark_for_spreadsheets_is_the_bytes_that_rfc_3629_names():
    """RFC 3629, section 6: the byte order mark in UTF-8 is EF BB BF."""
    assert csv_text(SEEN, bom=True).encode("utf-8")[:3] == b"\xef\xbb\xbf"
    assert not csv_text(SEEN).startswith(BOM)


@pytest.mark.parametrize("beginning", ["=", "+", "-", "@", "\t", "\r"])
def test_no_text_begins_as_a_formula_does(beginning):
    """The six beginnings are OWASP's."""
    text = f"{beginning}SUM(A1:A9)"
    assert guarded(text) == f"'{text}"
    assert unguarded(guarded(text)) == text


@pytest.mark.parametrize("text", ["-5", "+3", "-2.5", "12", "Brass Bell", "'quoted'", "", "1-2", "a=b"])
def test_plain_numbers_and_plain_words_stay_as_they_are(text):
    assert guarded(text) == text


@pytest.mark.parametrize("value", [-5, -0.25, 12])
def test_a_number_stays_a_number_whatever_its_sign(value):
    assert float(cell_text(value, Column("n", "N", Kind.NUMBER))) == value


@given(st.text(alphabet=st.sampled_from("'=+-@\t\r\n＝a1 ,\""), max_size=8) | st.text(max_size=20))
def test_whatever_a_name_is_it_comes_back_and_never_as_a_formula(text):
    out = guarded(text)
    assert unguarded(out) == text
    number = out.lstrip("+-").replace(".", "", 1).replace(",", "", 1).isdecimal()
    assert number or not out.startswith(("=", "+", "-", "@", "\t", "\r"))


def read_cell(text, column):
    """Return a cell as it was before it was written; ValueError where it is of another kind."""
    if column.kind is Kind.TEXT:
        return unguarded(text)
    if not text:
        return None
    if column.kind is Kind.YES_NO:
        return {"true": True, "false": False}[text]
    if column.kind is Kind.MOMENT:
        return datetime.fromisoformat(text).astimezone(UTC)
    if column.kind is Kind.DATE:
        return date.fromisoformat(text)
    return int(text) if column.kind is Kind.WHOLE else float(text)


@given(
    st.lists(
        st.tuples(
            st.text(st.characters(blacklist_categories=("Cs",), blacklist_characters="\0"), max_size=12),
            st.none() | st.integers(-(10**9), 10**9),
            st.none() | st.floats(allow_nan=False, allow_infinity=False),
            st.none() | st.booleans(),
            st.none() | st.dates(),
            st.none() | st.datetimes(timezones=st.just(UTC)),
        ),
        max_size=4,
    )
)
def test_every_table_comes_back_cell_by_cell(rows):
    """Read back by the standard library's csv module, strict."""
    table = Table.of("any", SEEN.columns, rows)
    header, *lines = csv.reader(io.StringIO(csv_text(table), newline=""), strict=True)
    assert tuple(header) == table.headers
    back = [
        tuple(read_cell(text, column) for text, column in zip(line, table.columns, strict=True))
        for line in lines
    ]
    assert back == list(table.rows)


def test_the_clipboard_holds_one_line_a_row_whatever_is_in_a_cell():
    lines = tsv_text(SEEN).split("\r\n")
    assert len(lines) == 1 + len(SEEN.rows) + 1
    assert {line.count("\t") for line in lines[:-1]} == {len(SEEN.columns) - 1}
    assert lines[2].startswith('says "hot" and means it\t')


def test_a_name_with_markup_is_shown_as_it_stands():
    """Reference: pandas' reader of HTML is not asked for; the escapes are those of HTML, section 13.1.4."""
    table = Table.of("<b>", (TEXT,), [("<script>&",)])
    assert "<td>&lt;script&gt;&amp;</td>" in html_text(table)
    assert "<caption>&lt;b&gt;</caption>" in html_text(table)


@pytest.mark.parametrize(
    ("columns", "row", "said"),
    [
        ((TEXT, TEXT), ("a", "b"), "each key is allowed once"),
        ((TEXT,), ("a", "b"), "has 2 cells; 1 are needed"),
        ((TEXT,), (3,), "a text is needed"),
        ((Column("n", "N", Kind.WHOLE),), (2.5,), "a whole number is needed"),
        ((Column("n", "N", Kind.WHOLE),), (True,), "a whole number is needed"),
        ((Column("n", "N", Kind.NUMBER),), (float("inf"),), "a number is needed"),
        ((Column("d", "D", Kind.DATE),), (datetime(2027, 1, 1, tzinfo=UTC),), "a date is needed"),
        ((Column("m", "M", Kind.MOMENT),), (date(2027, 1, 1),), "a moment with its time zone is needed"),
        ((Column("y", "Y", Kind.YES_NO),), (1,), "a yes or no is needed"),
    ],
)
def test_a_row_that_does_not_fit_is_refused_with_what_is_allowed(columns, row, said):
    with pytest.raises(TableError, match=said):
        Table.of("wrong", columns, [row])


def test_what_is_not_known_is_nothing_and_never_zero():
    table = Table.of("gaps", (Column("n", "N", Kind.NUMBER),), [(float("nan"),), (None,), (0.0,)])
    assert table.column("n") == (None, None, 0.0)
