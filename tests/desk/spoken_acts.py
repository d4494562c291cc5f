"""Clicks its way through the window in a language, and prints what was written down.

A program of its own, as the language is chosen before anything that speaks is imported:
python -m tests.desk.spoken_acts LANGUAGE. The same widgets are used in the same order in each language, so
what is written must be the same: what is kept is no text of a language.
"""

import os
import re
import sys

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from tests.desk.spoken_walk import speak_one

PAGES = ("grow", "harden", "setout", "pick", "seed")
LEFT_ALONE = re.compile(
    # What opens a window of the system's, starts a program, or goes to another page.
    r"photo|picture|file|import|paper|print|pdf|demo|walk|copy|again|archive|open|go-|calendar|help|close"
)
MOST_CLICKS = 60
KEY = re.compile(r"\b[0-9a-f]{8}-?(?:[0-9a-f]{4}-?){3}[0-9a-f]{12}\b")
NAME = re.compile(r" name='[^']*',")


def main(language):
    """Use the window and print the facts."""
    speak_one(language)
    for fact in used():
        sys.stdout.write(f"{fact}\n")


def used():
    """Return each fact written by using the window, without what differs from one run to another."""
    from PySide6.QtWidgets import QFileDialog

    from greenroom.desk.bench import Bench
    from greenroom.desk.look import Look
    from greenroom.desk.pages import page_makers
    from greenroom.desk.session import demo_ledger
    from greenroom.desk.start import make_application
    from greenroom.desk.window import Window
    from tests.desk.page_walk import scenes
    from tests.desk.test_access import settle

    make_application()
    for name in ("getOpenFileName", "getSaveFileName", "getExistingDirectory"):
        setattr(QFileDialog, name, lambda *_args, **_named: ("", ""))
    with demo_ledger(still=True) as keeper:
        before = len(keeper.ledger.facts())
        window = Window(Bench(keeper, Look(dark=False)), page_makers())
        window.dress()
        window.resize(1440, 900)
        window.show()
        for name, root in scenes(window, brief=False, pages=PAGES):
            if root is not window:
                break  # what opens over the window tells, and writes nothing
            settle()
            if name.startswith("grow"):
                choose_cells(window.page("grow"))
            if name == "grow":
                lose_the_chosen(window.page("grow"))
            use(window.page(window.current))
        told = [plain(fact) for fact in keeper.ledger.facts()[before:]]
        window.close()
        settle()
    return told


def choose_cells(page):
    """Choose two cells of the tray in front, as the keys do."""
    from PySide6.QtCore import Qt
    from PySide6.QtTest import QTest

    page.main.view.setFocus()
    QTest.keyClick(page.main.view, Qt.Key.Key_Home, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClick(page.main.view, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)


def lose_the_chosen(page):
    """Mark the chosen cells lost to the last of the causes."""
    page.main.bar.lost.click()
    page.main.loss.causes.setCurrentIndex(page.main.loss.causes.count() - 1)
    page.main.loss.yes.click()


def use(page):
    """Set every choice in sight to the next one and click every button in sight, in the order of the page."""
    from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox
    from shiboken6 import isValid

    from greenroom.desk.parts import WhyLink

    for box in page.findChildren(QComboBox):
        if isValid(box) and box.isVisible() and box.isEnabled() and box.count() > 1:
            box.setCurrentIndex((box.currentIndex() + 1) % box.count())
            box.activated.emit(box.currentIndex())
    clicked = 0
    for button in page.findChildren(QAbstractButton):
        if clicked == MOST_CLICKS:
            break
        if not (isValid(button) and button.isVisible() and button.isEnabled()):
            continue
        if isinstance(button, WhyLink) or LEFT_ALONE.search(button.objectName()):
            continue
        clicked += 1
        button.click()
        QApplication.sendPostedEvents()


def plain(fact):
    """A fact as text, without its keys, which are drawn anew each time, and names, which are proposed."""
    return NAME.sub("", KEY.sub("KEY", repr(fact)))


if __name__ == "__main__":
    main(sys.argv[1])
