"""The version is said once, in the program, and every package and page repeats it."""

import shutil
import subprocess
import tomllib
from datetime import date
from email.utils import parsedate_to_datetime
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from greenroom import APP_ID, __version__, app
from greenroom.desk.start import make_application

CHECKOUT = Path(__file__).resolve().parents[2]
METAINFO = """\
<component type="desktop-application">
  <releases>
    <release version="0.3.0" date="2027-02-01">
      <description><p>What is new:</p><ul><li>Racks   of
        pots</li></ul></description>
    </release>
    <release version="0.2.0" date="2026-12-01"/>
  </releases>
</component>
"""


@pytest.fixture
def about(script):
    return script("_about")


def test_the_packages_read_version_and_id_where_the_program_states_them(about):
    assert about.version() == __version__
    assert about.app_id() == APP_ID


def test_the_wheel_takes_its_version_from_the_program():
    pyproject = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))
    assert "version" in pyproject["project"]["dynamic"]
    assert pyproject["tool"]["setuptools"]["dynamic"]["version"] == {"attr": "greenroom.__version__"}


def test_nowhere_else_in_the_packages_is_the_version_written_but_in_the_list_of_releases():
    """An old number left in a script or a text would be taken for the version one day."""
    texts = [
        path for path in (CHECKOUT / "packaging").rglob("*") if path.suffix not in {".pyc", ".png", ".svg"}
    ]
    told = [path.name for path in texts if path.is_file() and __version__ in path.read_text(encoding="utf-8")]
    assert told == [f"{APP_ID}.metainfo.xml"]


def test_the_command_and_the_window_tell_the_version(capsys, qapp):
    with pytest.raises(SystemExit):
        app.main(["--version"])
    assert capsys.readouterr().out == f"greenroom {__version__}\n"
    make_application()
    assert QApplication.applicationVersion() == __version__


def test_a_name_that_the_program_does_not_state_is_refused(about, tmp_path):
    (tmp_path / "stated.py").write_text("__version__ = '1.2'\nCOUNT = 3\n")
    assert about.stated("__version__", tmp_path / "stated.py") == "1.2"
    for name in ("COUNT", "APP_ID"):
        with pytest.raises(LookupError, match=name):
            about.stated(name, tmp_path / "stated.py")


def test_the_packages_bring_what_is_offered_beside_the_program_but_not_the_tools_of_the_tests(about):
    """PEP 508: extras stand in brackets after the name."""
    name, _, extras = about.with_extras(Path("greenroom.whl")).partition("[")
    assert name == "greenroom.whl"
    pyproject = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))
    offered = {*extras.rstrip("]").split(","), "test"} - {""}
    assert offered == set(pyproject["project"]["optional-dependencies"])


def test_releases_are_read_with_their_notes(about, tmp_path):
    (tmp_path / "metainfo.xml").write_text(METAINFO)
    newest, older = about.releases(tmp_path / "metainfo.xml")
    assert newest == about.Release("0.3.0", date(2027, 2, 1), ("What is new:", "Racks of pots"))
    assert older.notes == ()


def test_a_version_without_its_release_is_not_packed(about, monkeypatch):
    assert about.released()[0].version == __version__
    monkeypatch.setattr(about, "version", lambda: "9.9.9")
    with pytest.raises(ValueError, match=rf"{__version__} first, and greenroom is 9\.9\.9"):
        about.released()


@pytest.mark.parametrize(
    ("python", "debian"),
    [("0.2.0", "0.2.0"), ("0.2.0rc1", "0.2.0~rc1"), ("1.0a2", "1.0~a2"), ("0.3.0.dev4", "0.3.0~dev4")],
)
def test_debian_sorts_what_comes_before_a_release_before_it(script, python, debian):
    """Debian Policy 5.6.12: a tilde sorts before everything, even the end."""
    texts = script("_deb_texts")
    assert texts.debian_version(python) == debian
    if debian != python and shutil.which("dpkg"):
        release = debian.split("~")[0]
        order = subprocess.run(["dpkg", "--compare-versions", debian, "lt", release], check=False)
        assert order.returncode == 0


def test_the_changelog_has_the_form_that_debian_reads(script, about):
    """Debian Policy 4.4: package, version, distribution, urgency; indented lines; who and when (RFC 5322)."""
    texts = script("_deb_texts")
    written = texts.changelog([about.Release("0.3.0", date(2027, 2, 1), ("Racks", "Tags"))])
    first, *notes, last = [line for line in written.splitlines() if line]
    assert first == "greenroom (0.3.0) stable; urgency=low"
    assert notes == ["  * Racks", "  * Tags"]
    name, _, moment = last.removeprefix(" -- ").partition("  ")
    assert name == texts.MAINTAINER
    assert parsedate_to_datetime(moment).date() == date(2027, 2, 1)
