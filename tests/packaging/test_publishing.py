"""What is published can be checked by whoever gets it; the one-folder builds name what is there."""

import hashlib
import os
import re
import shutil
import subprocess
import tarfile
from pathlib import Path

import pytest

from greenroom import __version__

CHECKOUT = Path(__file__).resolve().parents[2]
SPEC = CHECKOUT / "packaging" / "pyinstaller" / "greenroom.spec"


@pytest.fixture
def publish(script, monkeypatch, capsys):
    """A function that runs the script over a folder and returns its exit and what it said."""
    checksums = script("checksums")

    def run(folder):
        monkeypatch.setattr("sys.argv", ["checksums.py", "--folder", str(folder)])
        return checksums.main(), capsys.readouterr().out

    return run


@pytest.fixture
def built(tmp_path):
    """A folder with a wheel, a package and a one-folder program."""
    (tmp_path / f"greenroom-{__version__}-py3-none-any.whl").write_bytes(b"abc")
    (tmp_path / f"greenroom_{__version__}_amd64.deb").write_bytes(b"deb")
    (tmp_path / "greenroom").mkdir()
    (tmp_path / "greenroom" / "greenroom").write_bytes(b"program")
    return tmp_path


def test_the_sums_cover_wheel_package_and_folder(publish, built):
    """Expected: FIPS 180-4's own example, the SHA-256 of "abc"."""
    code, _said = publish(built)
    assert code == 0
    lines = dict(line.split(" *")[::-1] for line in (built / "SHA256SUMS").read_text().splitlines())
    archive = next(name for name in lines if name.endswith(".tar.gz"))
    assert len(lines) == 3
    assert lines[f"greenroom-{__version__}-py3-none-any.whl"] == (
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    )
    assert lines[archive] == hashlib.sha256((built / archive).read_bytes()).hexdigest()
    with tarfile.open(built / archive) as packed:
        assert f"{archive.removesuffix('.tar.gz')}/greenroom" in packed.getnames()


@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="sha256sum is not installed")
def test_a_changed_file_is_found_out_by_the_systems_own_tool(publish, built):
    """Expected: sha256sum of the GNU core utilities."""
    publish(built)
    check = ["sha256sum", "--check", "--strict", "SHA256SUMS"]
    assert subprocess.run(check, cwd=built, capture_output=True, check=False).returncode == 0
    (built / f"greenroom_{__version__}_amd64.deb").write_bytes(b"dab")
    assert subprocess.run(check, cwd=built, capture_output=True, check=False).returncode == 1


@pytest.mark.skipif(shutil.which("ssh-keygen") is None, reason="ssh-keygen is not installed")
def test_the_sums_can_be_signed_and_the_signature_checked_as_the_page_for_developers_says(publish, built):
    """Expected: ssh-keygen's own verdict, with a key made here and thrown away."""
    publish(built)
    quiet = {"cwd": built, "capture_output": True, "check": False, "text": True}
    subprocess.run(["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", "key"], **quiet)
    subprocess.run(["ssh-keygen", "-Y", "sign", "-f", "key", "-n", "greenroom", "SHA256SUMS"], **quiet)
    key = (built / "key.pub").read_text()
    (built / "maintainers").write_text(f'maintainers namespaces="greenroom" {key}')
    who = ["-f", "maintainers", "-I", "maintainers", "-n", "greenroom", "-s", "SHA256SUMS.sig"]
    verify = ["ssh-keygen", "-Y", "verify", *who]
    sums = (built / "SHA256SUMS").read_text()
    assert subprocess.run(verify, input=sums, **quiet).returncode == 0
    assert subprocess.run(verify, input=sums.replace("ba78", "ba79"), **quiet).returncode != 0


def test_a_leftover_of_another_version_is_not_published(publish, built):
    (built / "greenroom-0.0.1-py3-none-any.whl").write_bytes(b"old")
    code, said = publish(built)
    assert code == 1
    assert "greenroom-0.0.1-py3-none-any.whl" in said
    assert not (built / "SHA256SUMS").exists()


def test_with_nothing_built_nothing_is_summed(publish, tmp_path):
    code, said = publish(tmp_path)
    assert code == 1
    assert "Nothing to publish" in said


def test_the_one_folder_build_names_files_that_are_there_and_modules_that_can_be_found():
    text = SPEC.read_text(encoding="utf-8")
    compile(text, SPEC.name, "exec")
    for named in re.findall(r'packaging / "pyinstaller" / "([^"]+)"', text):
        assert (SPEC.parent / named).is_file()
    assert "_about.version()" in text
    assert "_about.app_id()" in text
    for folder in re.findall(r'collect_data_files\("([\w.]+)"', text):
        assert (CHECKOUT / folder.replace(".", "/")).is_dir()


def test_the_one_folder_build_is_tried_with_an_old_ledger_that_is_there(script):
    one_folder = script("one_folder")
    assert one_folder.SPEC == SPEC
    assert one_folder.OLD_LEDGER.is_file()
    icons = script("make_icons")
    assert {name.rpartition(".")[2] for _option, name in one_folder.ICONS.values()} == {"ico", "icns"}
    assert {option for option, _name in one_folder.ICONS.values()} <= set(
        re.findall(r"--\w+", Path(icons.__file__).read_text(encoding="utf-8"))
    )


@pytest.mark.skipif(os.name == "nt", reason="the program that does nothing is a shell script")
def test_a_one_folder_program_that_does_not_answer_or_draw_is_told(script, tmp_path):
    silent = tmp_path / "silent"
    silent.write_text("#!/bin/sh\n")
    silent.chmod(0o755)
    wrong = script("one_folder").faults(silent, tmp_path)
    assert wrong == [
        "--version answered ''",
        "no picture of the demo was drawn",
        "no picture of the ledger was drawn",
    ]


@pytest.mark.parametrize(
    ("name", "unused"),
    [
        ("PySide6/Qt/plugins/sqldrivers/libqsqlite.so", True),
        ("PySide6/Qt/lib/libQt6Quick.so.6", True),
        ("PySide6\\Qt\\qml\\QtQuick\\qmldir", True),
        ("numpy/tests/test_numpy.py", True),
        ("PySide6/Qt/lib/libQt6Gui.so.6", False),
        ("PySide6/Qt/plugins/printsupport/libcupsprintersupport.so", False),
        ("bin/greenroom", False),
        ("greenroom/resources/icons/tick.svg", False),
    ],
)
def test_from_the_one_folder_build_only_what_is_never_opened_is_left_out(script, name, unused):
    assert script("_slim").is_unused(name) is unused
