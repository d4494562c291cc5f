"""Seed lists: every packet of the list arrives as it stands there, or none does and the reason is said."""

import codecs
from pathlib import Path

import pandas
import pytest

from greenroom.exchange.errors import BadFileError
from greenroom.exchange.seed_list import ColumnMatch, SeedRow, look_at_seed_list, read_seed_list
from tests.exchange.test_text_table import assert_one_sentence, written

DATA = Path(__file__).parent.parent / "data"
HEADER = "Variety,Species,Lot,Packed,Seeds,Germination,Days to ripe\n"
ALL = ColumnMatch(0, 1, 2, 3, 4, 5, 6)


def read(path: Path) -> tuple[SeedRow, ...]:
    return read_seed_list(path, look_at_seed_list(path).match)


def refusal_of(folder: Path, content: bytes, match: ColumnMatch = ALL) -> BadFileError:
    with pytest.raises(BadFileError) as caught:
        read_seed_list(written(folder, content, "seeds.csv"), match)
    return caught.value


def test_an_english_list_arrives_as_it_stands():
    assert read(DATA / "seeds_english.csv") == (
        SeedRow("Jalapeño", "C. annuum", "4411", 2024, 25, 0.85, 75, 2),
        SeedRow('Bishop\'s "Hat"', "C. baccatum", "", 2022, 12, 0.7, 93, 3),
        SeedRow("Scotch Bonnet", "C. chinense", "77", 2023, 1200, 1.0, 110, 4),
        SeedRow("Manzano", "C. pubescens", "", None, None, None, None, 5),
    )


def test_a_german_list_with_semicolons_and_decimal_commas_arrives_too():
    assert read(DATA / "seeds_german.csv") == (
        SeedRow("Jalapeño", "Capsicum annuum", "A-17", 2024, 25, 0.855, 75, 2),
        SeedRow("Rocoto, rot", "Capsicum pubescens", "", 2023, 10, 0.6, 115, 3),
        SeedRow("Ají Amarillo", "Capsicum baccatum", "B-2", 2022, 1000, 0.925, 100, 4),
    )
    assert look_at_seed_list(DATA / "seeds_german.csv").note == ""


def test_a_list_in_an_older_encoding_is_read_and_the_grower_is_told():
    look = look_at_seed_list(DATA / "seeds_french.txt")
    assert "Windows-1252" in look.note
    assert read(DATA / "seeds_french.txt") == (
        SeedRow("Piment végétarien", "Capsicum chinense", "C1", 2023, 20, 0.8, None, 2),
        SeedRow("Gorria", "Capsicum annuum", "", 2024, None, None, None, 3),
    )


def test_a_look_shows_the_rows_as_pandas_reads_them():
    look = look_at_seed_list(DATA / "seeds_english.csv")
    table = pandas.read_csv(DATA / "seeds_english.csv", dtype=str, keep_default_na=False)
    assert look.header == tuple(table.columns)
    assert look.rows == tuple(map(tuple, table.to_numpy()))
    assert look.count == len(table)
    assert look.match == ALL


def test_a_look_shows_ten_rows_of_many_and_counts_them_all(tmp_path):
    look = look_at_seed_list(written(tmp_path, b"Name\n" + b"Rocoto\n" * 500))
    assert (len(look.rows), look.count) == (10, 500)


def test_rows_that_repeat_are_kept_and_pointed_out(tmp_path):
    path = written(tmp_path, b"Name,Lot\nRocoto,1\nRocoto,2\n Rocoto ,1\nAji,1\nRocoto,1\n")
    assert look_at_seed_list(path).repeats == ((4, 2), (6, 2))
    assert len(read(path)) == 5


def test_a_bare_list_of_names_is_a_seed_list(tmp_path):
    rows = read(written(tmp_path, codecs.BOM_UTF8 + "Sorte\r\nAjí\r\n\r\nRocoto\r\n".encode()))
    assert [(row.name, row.line) for row in rows] == [("Ají", 2), ("Rocoto", 4)]


def test_the_columns_chosen_win_over_those_proposed(tmp_path):
    path = written(tmp_path, b"Name,Species\nannuum,Rocoto\n")
    row = read_seed_list(path, ColumnMatch(name=1, species=0))[0]
    assert (row.name, row.species) == ("Rocoto", "annuum")


def test_a_name_may_have_two_hundred_letters(tmp_path):
    assert read(written(tmp_path, b"Name\n" + b"x" * 200 + b"\n"))[0].name == "x" * 200


def test_columns_that_are_not_chosen_may_hold_anything(tmp_path):
    path = written(tmp_path, b"Name,Seeds\nRocoto,plenty\n")
    assert read_seed_list(path, ColumnMatch(name=0))[0].seeds is None


@pytest.mark.parametrize(
    ("row", "parts"),
    [
        (",C. annuum,1,2023,25,85,80", ("column “Variety”", "nothing stands where a variety name")),
        ("?,C. annuum,1,2023,25,85,80", ("column “Variety”", "“?”", "at least one letter")),
        ("x" * 201 + ",,,,,,", ("column “Variety”", "up to 200")),
        ("Aji,,1,last,25,85,80", ("column “Packed”", "“last”", "a year such as 2023")),
        ("Aji,,1,2023,0.5 g,85,80", ("column “Seeds”", "“0.5 g”", "a whole number of seeds")),
        ("Aji,,1,2023,25,good,80", ("column “Germination”", "“good”", "a percentage such as 85")),
        ("Aji,,1,2023,25,0.85,80", ("column “Germination”", "“0.85”", "rest of the column is in percent")),
        ("Aji,,1,2023,25,120,80", ("column “Germination”", "“120”", "0 to 100 %")),
        ("Aji,,1,2023,25,85,early", ("column “Days to ripe”", "“early”", "20 to 400")),
        ("Aji,,1,2023,25", ("cut off", "5 cells", "7 are needed")),
        ('Aji,"C. ann', ("never closed",)),
    ],
)
def test_a_row_that_will_not_do_is_refused_with_its_line_and_column(tmp_path, row, parts):
    content = (HEADER + "Rocoto,C. pubescens,1,2023,25,85,120\n" + row).encode()
    assert_one_sentence(refusal_of(tmp_path, content), "seeds.csv", "line 3", *parts)


@pytest.mark.parametrize(
    ("match", "parts"),
    [
        (ColumnMatch(), ("no column is chosen for the variety name",)),
        (ColumnMatch(species=0), ("no column is chosen for the variety name",)),
        (ColumnMatch(name=7), ("no column 8 for the variety name", "1 to 7")),
        (ColumnMatch(name=-1), ("no column 0",)),
        (ColumnMatch(name=0, lot=0), ("“Variety”", "the variety name and the lot")),
    ],
)
def test_columns_that_do_not_fit_the_list_are_refused(tmp_path, match, parts):
    assert_one_sentence(refusal_of(tmp_path, (HEADER + "Aji,,,,,,\n").encode(), match), *parts)


@pytest.mark.parametrize(
    ("content", "parts"),
    [
        (b"", ("empty",)),
        (HEADER.encode(), ("no row",)),
        (b"\x00\x01\x02" * 100, ("not a text file",)),
        (b"\x81\x8d\xff" * 100, ("UTF-8",)),
        (b";".join(b"c%d" % n for n in range(200)) + b"\n", ("200 columns", "100 are allowed")),
        (b"Name\n" + b"a\n" * 2_000_000, ("more than 20,000 lines", "20,000 packets")),
        (b"Name,Lot\n" + b"Rocoto,4411\n" * 2_000_000, ("24 MB", "10 MB")),
    ],
)
def test_a_file_that_is_no_seed_list_is_refused_on_looking_and_on_reading(tmp_path, content, parts):
    assert_one_sentence(refusal_of(tmp_path, content, ColumnMatch(name=0)), "seeds.csv", *parts)
    with pytest.raises(BadFileError) as caught:
        look_at_seed_list(tmp_path / "seeds.csv")
    assert_one_sentence(caught.value, "seeds.csv", *parts)
