"""A file is written whole or not at all, and what hindered it is told in one sentence."""

import errno
import os
import re
from pathlib import Path

import pytest

from greenroom.exchange.errors import BadFileError
from greenroom.exchange.tables_file import SENTENCES, refusal, whole_file, write_text

FULL = Path("/dev/full")
"""A device that is always full: Linux manual, full(4)."""


def names(folder):
    """What is in a folder."""
    return sorted(one.name for one in folder.iterdir())


def test_a_file_takes_the_place_of_the_one_before(tmp_path):
    path = tmp_path / "table.csv"
    write_text(path, "old")
    assert write_text(path, "né").read_bytes() == b"n\xc3\xa9"
    assert names(tmp_path) == ["table.csv"]


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EIO])
def test_a_disk_that_fails_half_way_leaves_the_old_file_and_nothing_beside_it(tmp_path, number):
    path = tmp_path / "table.csv"
    path.write_text("old")

    def fail(_file):
        raise OSError(number, os.strerror(number))

    with pytest.raises(BadFileError) as caught, whole_file(path, sync=fail) as file:
        file.write(b"half of the new")
    assert_one_sentence(str(caught.value))
    assert path.read_text() == "old"
    assert names(tmp_path) == ["table.csv"]


@pytest.mark.skipif(not FULL.exists(), reason="this system has no device that is always full")
def test_a_full_disk_is_called_by_its_name():
    with pytest.raises(OSError, match="No space") as caught, FULL.open("wb", buffering=0) as full:
        full.write(b"x")
    assert "the disk is full" in refusal(Path("table.csv"), caught.value)


def test_what_goes_wrong_while_writing_is_not_mistaken_for_the_disk(tmp_path):
    with pytest.raises(ZeroDivisionError), whole_file(tmp_path / "table.csv"):
        _ = 1 / 0
    assert names(tmp_path) == []


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("x" * 300 + ".csv", "the name is too long"),
        ("no such folder/table.csv", "there is no such folder"),
        ("folder", "there is a folder of that name"),
        ("file/table.csv", "a file stands where the folder should be"),
        ("a\0b.csv", "the name holds signs that no file may have"),
    ],
)
def test_a_name_that_will_not_do_is_told_with_what_will(tmp_path, name, said):
    (tmp_path / "folder").mkdir()
    (tmp_path / "file").write_text("a file")
    with pytest.raises(BadFileError, match=said) as caught:
        write_text(tmp_path / name, "new")
    assert_one_sentence(str(caught.value))
    assert names(tmp_path) == ["file", "folder"]


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_is_read_only_is_left_alone(tmp_path):
    tmp_path.chmod(0o500)
    with pytest.raises(BadFileError, match="may not be written to"):
        write_text(tmp_path / "table.csv", "new")


@pytest.mark.parametrize("number", sorted(SENTENCES))
def test_each_reason_is_one_sentence_that_says_what_to_do(number, tmp_path):
    said = refusal(tmp_path / "table.csv", OSError(number, os.strerror(number)))
    assert_one_sentence(said)
    assert re.search("choose|make room", said)


def assert_one_sentence(text):
    assert "\n" not in text
    assert text.count(". ") == 0
