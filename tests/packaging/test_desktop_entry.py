"""Desktops find the program, its icon and its description, and know its window for its own."""

import configparser
import re
import shutil
import subprocess
import xml.etree.ElementTree as ElementTree
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import QSize
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtWidgets import QApplication

from greenroom import APP_ID, __version__
from greenroom.desk.app_icon import SIZES as SIZES_SHOWN
from greenroom.desk.app_icon import app_icon
from greenroom.desk.start import make_application

CHECKOUT = Path(__file__).resolve().parents[2]
LINUX = CHECKOUT / "packaging" / "linux"
ENTRY = LINUX / f"{APP_ID}.desktop"
METAINFO = LINUX / f"{APP_ID}.metainfo.xml"
ICONS = CHECKOUT / "resources" / "icons" / "hicolor"


@pytest.fixture(scope="module")
def entry():
    read = configparser.ConfigParser(interpolation=None, delimiters=("=",))
    read.optionxform = str
    read.read_string(ENTRY.read_text(encoding="utf-8"))
    return read


@pytest.fixture(scope="module")
def component():
    return ElementTree.parse(METAINFO).getroot()


def needs(tool):
    return pytest.mark.skipif(shutil.which(tool) is None, reason=f"{tool} is not installed")


def passes(*command):
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=60)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout + done.stderr


@needs("desktop-file-validate")
def test_the_desktop_entry_passes_the_validator_without_a_word():
    """Expected: desktop-file-validate of desktop-file-utils, for the Desktop Entry Specification."""
    assert passes("desktop-file-validate", ENTRY) == ""


@needs("appstreamcli")
def test_the_description_for_software_centres_passes_the_validator():
    """Expected: appstreamcli, for the AppStream specification."""
    passes("appstreamcli", "validate", "--no-net", METAINFO)


def test_the_desktop_entry_has_what_its_specification_requires(entry):
    """Desktop Entry Specification 1.5, sections 3 and 6: Type, Name and Exec; lists end in a semicolon."""
    main = entry["Desktop Entry"]
    assert main["Type"] == "Application"
    assert main["Name"] == "greenroom"
    assert main["Exec"].split()[0] == "greenroom"
    for key in ("Categories", "Keywords", "Actions"):
        assert main[key].endswith(";")
    for action in main["Actions"].rstrip(";").split(";"):
        assert {"Name", "Exec"} <= set(entry[f"Desktop Action {action}"])


def test_the_entry_starts_the_command_that_is_installed(entry):
    pyproject = (CHECKOUT / "pyproject.toml").read_text(encoding="utf-8")
    assert re.search(r"^greenroom = ", pyproject, re.MULTILINE)
    for section in entry.sections():
        assert entry[section]["Exec"].split()[0] == "greenroom"


def test_the_id_is_one_that_d_bus_would_take_and_nobody_can_own():
    """D-Bus Specification, valid names: two or more elements of letters, digits and _, no digit first.

    RFC 8375: home.arpa is set aside for homes and registered to nobody.
    """
    assert re.fullmatch(r"[a-z_][a-z0-9_]*(\.[a-z_][a-z0-9_]*)+", APP_ID)
    assert APP_ID.startswith("arpa.home.")


def test_entry_description_icons_and_window_go_by_one_id(entry, component, qapp):
    assert entry["Desktop Entry"]["Icon"] == APP_ID
    assert component.findtext("id") == APP_ID
    assert component.findtext("launchable") == ENTRY.name
    assert component.findtext("icon") == APP_ID
    make_application()
    assert QGuiApplication.desktopFileName() == APP_ID


def test_the_description_has_what_its_specification_requires(component):
    """AppStream specification, desktop applications: these tags; a summary without a full stop."""
    assert component.attrib["type"] == "desktop-application"
    for tag in ("id", "metadata_license", "name", "summary", "description", "launchable", "content_rating"):
        assert component.find(tag) is not None, tag
    assert not component.findtext("summary").endswith(".")
    assert component.find("content_rating").attrib["type"] == "oars-1.1"


def test_the_newest_release_is_the_version_of_the_program_and_the_days_run_backwards(component):
    found = component.findall("releases/release")
    assert found[0].attrib["version"] == __version__
    days = [date.fromisoformat(release.attrib["date"]) for release in found]
    assert days == sorted(days, reverse=True)


def test_the_icon_is_there_in_every_size_of_the_theme_and_drawn_from_the_drawing(script, qapp):
    """Icon Theme Specification: hicolor keeps an icon of n pixels in nxn/apps."""
    drawer = script("make_icons")
    assert set(drawer.SIZES) == set(SIZES_SHOWN) >= {16, 32, 48, 128, 256, 512}
    for size in drawer.SIZES:
        kept = QImage(str(ICONS / f"{size}x{size}" / "apps" / f"{APP_ID}.png"))
        assert (kept.width(), kept.height()) == (size, size)
        assert far_apart(kept, drawer.draw(size)) < 0.01, f"{size}: run packaging/make_icons.py"
    assert (ICONS / "scalable" / "apps" / f"{APP_ID}.svg").read_bytes() == drawer.LARGE.read_bytes()
    symbolic = ICONS / "symbolic" / "apps" / f"{APP_ID}-symbolic.svg"
    assert symbolic.read_bytes() == drawer.SYMBOLIC.read_bytes()


def far_apart(one, other):
    """The share of looked-at points whose colours differ by more than rounding (8 of 255)."""
    step = max(1, one.width() // 32)
    places = [(x, y) for x in range(0, one.width(), step) for y in range(0, one.height(), step)]

    def differ(x, y):
        here, there = one.pixelColor(x, y).getRgb(), other.pixelColor(x, y).getRgb()
        return any(abs(a - b) > 8 for a, b in zip(here, there, strict=True))

    return sum(differ(x, y) for x, y in places) / len(places)


def test_the_icon_shows_a_green_plant_over_brown_soil_and_clear_corners(script, qapp):
    image = script("make_icons").draw(16)
    assert image.pixelColor(0, 0).alpha() < 128
    leaf, soil = image.pixelColor(4, 5), image.pixelColor(4, 13)
    assert leaf.green() > leaf.red() > leaf.blue()
    assert soil.red() > soil.green() > soil.blue()


def test_the_window_shows_the_icon(qapp):
    make_application()
    shown = QApplication.windowIcon()
    assert QSize(16, 16) in shown.availableSizes()
    assert QSize(512, 512) in shown.availableSizes()
    assert not app_icon().pixmap(QSize(48, 48)).isNull()


@pytest.mark.parametrize(
    ("ending", "begins"),
    [(".ico", b"\x00\x00\x01\x00"), (".icns", b"icns")],
)
def test_the_other_systems_get_an_icon_of_their_own_form(script, qapp, tmp_path, ending, begins):
    """Expected: the first bytes of the two forms, and Pillow's reader."""
    drawer = script("make_icons")
    target = tmp_path / f"greenroom{ending}"
    drawer.bundle(target, (16, 32, 128))
    assert target.read_bytes().startswith(begins)
    with drawer.Image.open(target) as found:
        sizes = {size[0] * (size[2] if len(size) > 2 else 1) for size in found.info["sizes"]}
    assert 128 in sizes
    assert 32 in sizes
