"""Goes through the whole window in another language, and prints what is cut off or was not translated.

A program of its own, as the language is chosen before anything that speaks is imported:
python -m tests.desk.spoken_walk LANGUAGE [WIDTH HEIGHT], where xx is the marked English of tests.pseudo.
"""

import json
import os
import re
import sys

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from greenroom.desk.language import speak
from greenroom.speech import SPEAKER

PLAIN = re.compile(r"(?<![\w.])[A-Za-z]{3,}(?![\w.])")
WORD = re.compile(r"[A-Za-z]{3,}")
MARKUP = re.compile(r"<[^>]+>|&\w+;|https?:\S+")
SIGNS = re.findall(
    r"\w+",
    # Units, signs and names of files and standards, the same in every language.
    "mol km min max CSV PDF PNG SVG JSON URL DLI VPD ppm Ctrl Shift Alt Esc Tab Enter Home End Backspace CFR "
    "Open Meteo GeoNames greenroom "
    "Scroll Left Right",  # Qt's own names, in the catalogues that come with it
)
ROWS_LOOKED_AT = 30


def main(language, size):
    """Walk and print."""
    speak_one(language)
    sys.stdout.write(json.dumps(walk_through(size, whole=language == "xx"), ensure_ascii=False, indent=1))


def speak_one(language):
    """Speak a language, or the marked English."""
    if language == "xx":
        from tests.pseudo import TONGUE

        SPEAKER.speak(TONGUE)
    else:
        speak(language)


def walk_through(size, *, whole):
    """Return what is cut off and what is plain English, by scene."""
    from greenroom.desk.bench import Bench
    from greenroom.desk.look import Look
    from greenroom.desk.pages import page_makers
    from greenroom.desk.session import demo_ledger
    from greenroom.desk.start import make_application
    from greenroom.desk.window import Window
    from tests.desk.page_walk import cut, path, reachable, scenes, too_small
    from tests.desk.test_access import settle

    make_application()
    shorn, plain, seen = [], {}, set()
    with demo_ledger(still=True) as keeper:
        names = words_of_data(keeper)
        window = Window(Bench(keeper, Look(dark=False)), page_makers())
        window.dress()
        window.resize(*size)
        window.show()
        for name, root in scenes(window, brief=not whole, pages=None):
            settle()
            shorn += [(name, *one) for one in cut(root)]
            shorn += [(name, path(one), one.size().toTuple()) for one in reachable(root) if too_small(one)]
            for text in [*texts(root), *(told_why(window, root) if whole else ())]:
                if text in seen:
                    continue
                seen.add(text)
                left = [word for word in PLAIN.findall(MARKUP.sub(" ", text)) if word.casefold() not in names]
                if left:
                    plain.setdefault(name, []).append((text[:160], left[:6]))
        wide = (window.width(), window.height())
        window.close()
        settle()
    return {"cut": shorn, "plain": plain, "size": wide, "texts": len(seen)}


def told_why(window, root):
    """What the answers to every "why?" in sight say; their sources are cited as they are."""
    from greenroom.desk.parts import WhyLink

    told = []
    window.bench.explain = lambda why, _link: told.append(why)
    for link in root.findChildren(WhyLink):
        if link.isVisible() and link.isEnabled():
            link.click()
    del window.bench.explain
    for why in told:
        yield from (why.figure, why.rule)
        for pair in why.inputs:
            yield from pair


def words_of_data(keeper):
    """The words no catalogue translates: the grower's own, and names of plants, zones and institutes."""
    from zoneinfo import available_timezones

    from greenroom.season.schedules import SCHEDULES
    from greenroom.speech import NAMES

    species = [one.latin for one in keeper.season.guide.entries.values() if one.latin]
    cited = [one.source for one in SCHEDULES]
    held = [repr(fact) for fact in keeper.ledger.facts()]
    kept = " ".join([*held, *species, *cited, *available_timezones(), *NAMES.values(), *SIGNS])
    return {word.casefold() for word in WORD.findall(kept)}


def texts(root):
    """Every text a part of the window shows, names or tells a screen reader."""
    from PySide6.QtWidgets import (
        QAbstractButton,
        QAbstractItemView,
        QComboBox,
        QLabel,
        QLineEdit,
        QTabBar,
        QWidget,
    )

    for one in root.findChildren(QWidget):
        if not one.isVisible():
            continue
        yield from (one.accessibleName(), one.accessibleDescription(), one.toolTip())
        if isinstance(one, QLabel | QAbstractButton):
            yield one.text()
        elif isinstance(one, QLineEdit):
            yield one.placeholderText()
        elif isinstance(one, QComboBox):
            yield from (one.itemText(place) for place in range(one.count()))
        elif isinstance(one, QTabBar):
            yield from (one.tabText(place) for place in range(one.count()))
        elif isinstance(one, QAbstractItemView) and one.model() is not None:
            yield from _cells(one.model())


def _cells(model):
    from PySide6.QtCore import QAbstractTableModel, Qt

    columns = model.columnCount() if isinstance(model, QAbstractTableModel) else 1
    for column in range(columns):
        yield str(model.headerData(column, Qt.Orientation.Horizontal) or "")
        for line in range(min(model.rowCount(), ROWS_LOOKED_AT)):
            yield str(model.index(line, column).data() or "")


if __name__ == "__main__":
    wanted = tuple(int(side) for side in sys.argv[2:4]) or (1024, 700)
    main(sys.argv[1], wanted)
