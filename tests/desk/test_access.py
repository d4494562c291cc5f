"""Every page and panel can be used by the keys, by a screen reader and by weak eyes.

The window is walked through once; each test reads what was noted on the way.
"""

from contextlib import contextmanager
from datetime import UTC
from pathlib import Path

import pytest
from PySide6.QtCore import QEventLoop, QSize, QTimer
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QWidget

import greenroom.desk
from greenroom.desk.bench import Bench
from greenroom.desk.clock import standing_at
from greenroom.desk.grow.cell_art import CellArt, Face
from greenroom.desk.keeper import Keeper
from greenroom.desk.keeping.mending import MendingWindow
from greenroom.desk.look import Look
from greenroom.desk.pages import page_makers
from greenroom.desk.session import demo_ledger
from greenroom.desk.start import MOVING, make_application
from greenroom.desk.window import Window
from greenroom.ledger import Ledger
from greenroom.ledger.backups import Backups
from greenroom.season.spots import Stage
from tests.desk.conftest import NOW
from tests.desk.grow_hands import NO_SCREEN
from tests.desk.page_walk import (
    Found,
    beginnings,
    cut,
    faint,
    look_at,
    marked,
    reachable,
    scenes,
    spoken,
    too_small,
    unseen,
    walk,
)
from tests.desk.seeing import share_apart

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)

SETTLE_MS = 20
ROOMY, SMALL = (1440, 900), (1024, 700)
LIGHT, DARK = ("roomy", "small"), ("dark", "empty")  # the empty one is tried whole in the dark
TRIED = ("roomy", "empty")  # by the keys, too


def settle():
    """Let timers that are due and repaints happen."""
    loop = QEventLoop()
    QTimer.singleShot(SETTLE_MS, loop.quit)
    loop.exec()
    for _ in range(2):  # what was laid out anew asks what it stands in to do so, too
        QApplication.sendPostedEvents()


@contextmanager
def shown(keeper, size, *, dark=False):
    """A window on a ledger in a theme, closed again."""
    window = Window(Bench(keeper, Look(dark=dark)), page_makers())
    window.dress()
    window.resize(*size)
    window.show()
    window.activateWindow()
    yield window
    window.close()
    window.deleteLater()
    settle()


@contextmanager
def mending(folder, *, dark):
    """What comes up instead of the window where the ledger is damaged: a copy to restore, and ways on."""
    Window.dress_application(Look(dark=dark))
    backups = Backups(folder / "season.greenroom")
    backups.ledger.write_bytes(b"no ledger")
    shown = MendingWindow(f"{backups.ledger.name} is not a ledger of greenroom.", backups, UTC, lambda: None)
    shown.show()
    shown.activateWindow()
    yield shown
    shown.close()
    shown.deleteLater()
    settle()


def look_at_an_empty_ledger(noted, folder):
    """All of what is said before anything was written down, in the smallest window, and how it looks dark."""
    with (
        Ledger.open("sqlite://") as ledger,
        shown(Keeper(ledger, standing_at(NOW)), SMALL, dark=True) as window,
    ):
        look_at(beginnings(window), settle, noted["empty"])
    for dark in (False, True):
        with mending(folder, dark=dark) as window:
            look_at([("mending", window)], settle, noted["empty"], tried=dark)


@pytest.fixture(scope="module")
def found(qapp, tmp_path_factory):
    """What is amiss: in a roomy window all of it, in the smallest and in the dark what is seen of pages."""
    make_application()
    noted = {where: Found() for where in LIGHT + DARK}
    look_at_an_empty_ledger(noted, tmp_path_factory.mktemp("walk"))
    with demo_ledger(still=True) as keeper:
        with shown(keeper, SMALL, dark=True) as window:
            look_at(
                scenes(window, brief=True, pages=None), settle, noted["dark"], tried=False, laid_out=False
            )
        with shown(keeper, ROOMY) as window:
            look_at_the_demo(window, noted)
    return noted


def look_at_the_demo(window, noted):
    """All of it in a roomy window, what is seen in the smallest, and what text at 200 % leaves."""
    walk(window, settle, noted["roomy"])
    window.resize(*SMALL)
    walk(window, settle, noted["small"], brief=True)
    window.resize(*(side // 2 for side in ROOMY))  # what a screen has room for with text at 200 %
    window.show_page("round")
    settle()
    noted["doubled"] = Found(unreached=unseen(window), cut=list(cut(window)))


@pytest.fixture(params=TRIED)
def tried(request, found):
    """What is amiss where everything was tried: in a roomy window, and in one without any records."""
    return found[request.param]


def test_the_walk_finds_what_is_amiss(qtbot, qapp):
    Window.dress_application(Look(dark=False))
    home = QWidget()
    qtbot.addWidget(home)
    faded, short, bare = (
        QLabel("hardly seen", home),
        QLabel("much longer than it is wide", home),
        QPushButton(home),
    )
    faded.setGeometry(0, 0, 120, 20)
    faded.setStyleSheet("color: #999999; background: #ffffff")
    short.setGeometry(0, 30, 40, 20)
    bare.setGeometry(0, 60, 20, 20)
    bare.setStyleSheet("QPushButton, QPushButton:focus { border: none; background: #ffffff; min-height: 0; }")
    home.resize(300, 100)
    home.show()
    home.activateWindow()
    assert [words for _, words, _ in faint(home)] == ["hardly seen"]
    assert [words for _, words, *_ in cut(home)] == ["much longer than it is wide"]
    assert [spoken(one) for one in reachable(home)] == [""]
    assert too_small(bare)
    assert not marked(bare)


def test_every_page_was_walked_through_in_light_and_dark_with_and_without_records(found):
    for where in LIGHT + DARK:
        assert set(page_makers()) <= set(found[where].scenes)
    assert len(found["roomy"].scenes) > 30
    for where in ("roomy", "small", "dark"):
        assert {"refusal", "trouble", "why"} <= set(found[where].scenes)
    assert "mending" in found["empty"].scenes


def test_everything_the_tab_key_stops_at_has_a_name(tried):
    assert tried.nameless == []


def test_everything_to_be_clicked_is_big_enough(tried):
    assert tried.small == []


def test_the_focus_is_seen_on_everything_it_comes_to(tried):
    assert tried.unmarked == []


def test_the_tab_key_comes_to_everything_and_is_held_nowhere(tried):
    assert tried.unreached == []


def test_nothing_of_a_page_flashes_up_as_a_window_of_its_own(tried):
    assert tried.strays == []


def test_with_text_at_200_percent_everything_is_come_to_by_scrolling(found):
    # WCAG 2.2, 1.4.4 (level AA): text can be resized up to 200 percent without loss of content or function.
    assert found["doubled"].unreached == []
    assert found["doubled"].cut == []


@pytest.mark.parametrize("where", [*LIGHT, "empty"])
def test_what_is_painted_is_told_to_a_screen_reader(found, where):
    assert found[where].untold == []


@pytest.mark.parametrize("where", [*LIGHT, "empty"])
def test_no_words_are_cut_off(found, where):
    assert found[where].cut == []


@pytest.mark.parametrize("where", LIGHT + DARK)
def test_words_stand_out_from_what_they_are_painted_on(found, where):
    assert found[where].faint == []


def test_pictures_of_cells_are_drawn_in_the_dots_of_the_screen(qapp):
    art, size = CellArt(Look(dark=False)), QSize(28, 28)
    face = Face(False, Stage.UP, up=1)
    coarse, fine = art.picture(face, size, 1.0), art.picture(face, size, 2.0)
    assert (fine.width(), fine.devicePixelRatio()) == (56, 2.0)
    enlarged = coarse.scaled(fine.size()).toImage()
    assert share_apart(fine.toImage(), enlarged, steps=5) > 0.05, "it was only enlarged"


def test_nothing_moves_by_itself(qapp):
    # WCAG 2.2, 2.3.3: motion can be turned off; here there is none that would have to be.
    moving = ("QPropertyAnimation", "QVariantAnimation", "QSequentialAnimationGroup", "QTimeLine")
    files = Path(greenroom.desk.__file__).parent.rglob("*.py")
    assert [file.name for file in files if any(name in file.read_text("utf-8") for name in moving)] == []
    for effect in MOVING:
        QApplication.setEffectEnabled(effect, True)
    make_application()
    assert not any(QApplication.isEffectEnabled(effect) for effect in MOVING)
