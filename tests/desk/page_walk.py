"""Every page and panel of the window in turn, and what of it is reached, named, large enough and whole."""

from dataclasses import dataclass, field
from datetime import timedelta

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtGui import QAccessible, QImage, QRegion
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QPushButton,
    QRadioButton,
    QScrollArea,
    QScrollBar,
    QWidget,
)

from greenroom.agronomy.hardening import Ramp
from greenroom.desk.care.faces import FACES
from greenroom.desk.help.panel import HelpPanel
from greenroom.desk.pages import page_makers
from greenroom.desk.trouble_panel import CRASH_WORDS, SAFE, TroublePanel
from greenroom.desk.why_panel import WhyPanel
from greenroom.season.hardening_why import ramp_why
from greenroom.season.spots import SpotKey
from tests.desk.seeing import print_contrast, shares_of

TARGET_PX = 24  # WCAG 2.2, 2.5.8 (level AA): 24 by 24 CSS pixels
READ = 4.5  # WCAG 2.2, 1.4.3 (level AA)
TARGETS = QAbstractButton | QLineEdit | QComboBox | QAbstractSpinBox
ROUNDING_PX = 1
LEAST_TOLD_PX = 48  # what is lower is a sign or a key, and its name tells it
MARK_PX = 12  # pixels that change with the focus, at the least
MOST_STOPS = 4  # of the Tab key within one field: day, month, year of a date


@dataclass
class Found:
    """What is amiss, by the scene it was seen in."""

    nameless: list = field(default_factory=list)
    small: list = field(default_factory=list)
    unmarked: list = field(default_factory=list)
    unreached: list = field(default_factory=list)
    cut: list = field(default_factory=list)
    faint: list = field(default_factory=list)
    untold: list = field(default_factory=list)
    strays: list = field(default_factory=list)
    scenes: list = field(default_factory=list)


def scenes(window, *, brief, pages):
    """Bring every page, tab and panel to the front, one after the other; yield its name and what it is in."""
    for key in page_makers() if pages is None else pages:
        window.show_page(key)
        yield key, window
        for name in () if brief else _beyond(window, key):
            yield f"{key}, {name}", window
    if pages is None:
        yield from told(window)
    if not brief:
        yield from _panels(window)


def _beyond(window, key):
    """The tabs and views of a page that are not in front when it comes to the front."""
    page = window.pages[key]
    if hasattr(page, "tabs"):
        yield from _other_tabs(page.tabs.bar)
    if key == "sow":
        for panel in ("want", "rules"):
            page.plan.show_panel(panel)
            yield panel
        for view in ("trays", "light"):
            page.show_view(view)
            yield view
    if key == "seed":
        page.show_import()
        yield "seed list"
        page.show_box()
    if key == "harden":
        for view in ("side", "ramp", "cool"):
            page.views.open(view)
            yield view
        page.views.open(None)
    if key == "grow":
        page.open_story(SpotKey(page.main_key, 0, 0))
        yield "story"
        page.panel.close_panel()
        for face in FACES:
            page.care.open_care(page.main_key, face)
            yield f"care, {face}"
        page.care.close_care()
    if key == "setout":
        page.bar.mode_changed.emit("draw")
        yield "draw"


def beginnings(window):
    """Every page, and its views, before anything was written down."""
    for key in page_makers():
        window.show_page(key)
        yield key, window
        if key == "sow":
            for view in ("trays", "light"):
                window.pages[key].show_view(view)
                yield f"{key}, {view}", window
            window.pages[key].show_view("plan")
        if key == "harden":
            for view in ("side", "cool"):
                window.pages[key].views.open(view)
                yield f"{key}, {view}", window
            window.pages[key].views.open(None)


def told(window):
    """What tells of a refusal, of trouble and of a figure, over the page that is in front."""
    window.messages.say(f"{CRASH_WORDS} {SAFE}")
    yield "refusal", window
    window.messages.clear()
    trouble = TroublePanel(window, lambda: window.bench.keeper.season)
    trouble.show_crash(("2027-05-14 09:54:00 ERROR greenroom",))
    yield "trouble", trouble
    trouble.hide()
    trouble.deleteLater()
    why = WhyPanel(_why(window), window)
    why.setWindowFlags(Qt.WindowType.Tool)  # a popup would close itself where no screen is
    why.open_beside(window.top)
    yield "why", why
    why.close()
    window.activateWindow()


def _why(window):
    """Why a ramp is as it is: inputs, a rule, and where it comes from."""
    today = window.bench.keeper.today
    return ramp_why(Ramp(), today, today + timedelta(days=Ramp().outings - 1))


def _panels(window):
    """What opens over the window."""
    window.show_page("grow")
    window.pages["grow"].shelf_table.open()
    yield "table", QApplication.activePopupWidget()
    QApplication.activePopupWidget().close()
    panel = HelpPanel(window.bench, window)
    panel.open_over(window)
    yield "help", panel
    for tab in _other_tabs(panel.tabs.bar):
        yield f"help, {tab}", panel
    panel.close()


def _other_tabs(bar):
    first = bar.currentIndex()
    for place in [one for one in range(bar.count()) if one != first]:
        bar.setCurrentIndex(place)
        yield bar.tabText(place)


def walk(window, settle, found, *, brief=False):
    """Go through every scene and note what is amiss in it; in brief, only the pages and only what is seen."""
    connected = QApplication.instance().focusWindowChanged.connect(lambda at: _note_stray(window, at, found))
    look_at(scenes(window, brief=brief, pages=None), settle, found, tried=not brief)
    QApplication.instance().focusWindowChanged.disconnect(connected)


def look_at(shown, settle, found, *, tried=True, laid_out=True):
    """Note what is amiss in each of some scenes.

    What is not ``tried`` by the keys is only looked at; what is ``laid_out`` as it was before, in other
    colours, is looked at for these alone.
    """
    seen, kinds = set(), set()
    for name, root in shown:
        settle()
        found.scenes.append(name)
        found.faint += [(name, *one) for one in faint(root)]
        if laid_out:
            found.untold += [(name, path(one)) for one in untold(root)]
            found.cut += [(name, *one) for one in cut(root)]
        if tried:
            fresh = [one for one in reachable(root) if id(one) not in seen]
            seen.update(id(one) for one in fresh)
            found.nameless += [(name, path(one)) for one in fresh if not spoken(one).strip()]
            found.small += [(name, path(one), spoken(one)) for one in fresh if too_small(one)]
            for one in fresh:
                if one.isVisible() and _new_kind(one, kinds) and not marked(one):
                    found.unmarked.append((name, path(one)))
            found.unreached += [(name, path(one)) for one in unreached(root)]


def _note_stray(window, at, found):
    """Note what is shown as a window of its own, and takes the keys, though it is a part of a page."""
    if at is not None and at is not window.windowHandle() and at.type() is Qt.WindowType.Window:
        found.strays.append((at.title(), at.geometry().getRect()))


def reachable(root):
    """The widgets the Tab key stops at; fields inside a chooser stand for the chooser."""
    for one in root.findChildren(QWidget):
        if not one.isVisible():
            continue
        stops = one.focusPolicy() & Qt.FocusPolicy.TabFocus and one.isEnabled()
        inner = isinstance(one.parent(), QComboBox | QAbstractSpinBox) or isinstance(one, QScrollBar)
        if stops and not inner and one.focusProxy() is None and one.window() is root.window():
            yield one


def spoken(widget):
    """What a screen reader says of a widget: its own name, its text, or its label's."""
    interface = QAccessible.queryAccessibleInterface(widget)
    return interface.text(QAccessible.Text.Name) if interface is not None else ""


def untold(root):
    """What is painted by hand, or as a chart, and tells a screen reader nothing of what is on it."""
    for one in root.findChildren(QWidget):
        blank = getattr(one, "text", None) == ""
        if not one.isVisible() or blank or isinstance(one, QAbstractButton | QLabel):
            continue
        chart = any(kind.__module__.startswith("pyqtgraph") for kind in type(one).__mro__)
        painted = any(
            kind.__module__.startswith("greenroom") and "paintEvent" in vars(kind)
            for kind in type(one).__mro__
        )
        inner = one.parentWidget() is not None and one.parentWidget().accessibleDescription()
        told = one.accessibleDescription() or inner
        if (chart or painted) and not (told or (one.height() < LEAST_TOLD_PX and one.accessibleName())):
            yield one


def path(widget):
    """Where a widget is found: itself and what it stands in."""
    names = []
    while widget is not None and len(names) < 4:
        names.append(f"{type(widget).__name__}#{widget.objectName()}".rstrip("#"))
        widget = widget.parentWidget()
    return " in ".join(names)


def cut(root):
    """Labels and buttons that are smaller than their words."""
    for one in root.findChildren(QLabel):
        if not one.isVisible() or not one.text() or _may_be_short(one):
            continue
        wrong = one.sizeHint().width() > one.width() + ROUNDING_PX and not one.wordWrap()
        low = one.heightForWidth(one.width()) if one.wordWrap() else one.sizeHint().height()
        if wrong or low > one.height() + ROUNDING_PX:
            yield path(one), one.text()[:60], (one.width(), one.height()), (one.sizeHint().width(), low)
    for one in root.findChildren(QAbstractButton):
        hint = one.minimumSizeHint()
        if one.isVisible() and one.text() and hint.width() > one.width() + ROUNDING_PX:
            yield path(one), one.text()[:60], one.width(), hint.width()


def _may_be_short(label):
    """Whether the rest of a label is told elsewhere: it is elided with its words in a tool tip."""
    return bool(label.toolTip()) or not label.visibleRegion().boundingRect().isValid()


def picture(root, region, ratio):
    """What a part of a window shows, at so many pixels to the unit."""
    image = QImage(region.size() * ratio, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    root.render(image, QPoint(0, 0), QRegion(region))
    return image


def faint(root):
    """Labels and buttons whose words do not stand out from what they stand on, as they are painted.

    Strokes thinner than a pixel are paler than their colour: what looks faint is looked at enlarged.
    """
    whole = picture(root, root.rect(), 1)
    for one in [*root.findChildren(QLabel), *root.findChildren(QPushButton)]:
        if not (one.isVisible() and one.text().strip() and one.isEnabled()):
            continue
        seen = one.visibleRegion().boundingRect()
        if seen.height() < one.height() or seen.width() < min(one.width(), 24):
            continue
        inside = seen.adjusted(4, 3, -4, -3) if isinstance(one, QPushButton) else seen
        region = QRect(one.mapTo(root, inside.topLeft()), inside.size())
        if print_contrast(whole.copy(region)) < READ:
            ratio = print_contrast(picture(root, region, 3))
            if ratio < READ:
                yield path(one), one.text()[:40], round(ratio, 2)


def too_small(one):
    """Whether a widget is smaller than a target may be."""
    return isinstance(one, TARGETS) and min(one.width(), one.height()) < TARGET_PX


def _new_kind(one, kinds):
    """Whether a widget is the first of its kind: of those alike one is looked at."""
    kind = (type(one), one.property("kind"), one.objectName() if type(one) is QWidget else "")
    fresh = kind not in kinds
    kinds.add(kind)
    return fresh


def marked(one):
    """Whether a widget looks another when the focus is on it."""
    one.clearFocus()
    at = one
    while (at := at.parentWidget()) is not None:
        if isinstance(at, QScrollArea):
            at.ensureWidgetVisible(one)
    before = shares_of(_seen(one))
    one.setFocus(Qt.FocusReason.TabFocusReason)
    if not one.hasFocus():
        return False
    after = shares_of(_seen(one))
    one.clearFocus()
    return int((abs(before - after).max(axis=2) > 0.1).sum()) >= MARK_PX


def _seen(one):
    """A widget as it is seen, with what is painted about it."""
    corner = one.mapTo(one.window(), QPoint(-2, -2))
    return (
        one.window()
        .grab(QRect(corner, QSize(min(one.width(), 500) + 4, min(one.height(), 400) + 4)))
        .toImage()
    )


def unreached(root):
    """What the Tab key does not come to, from the first stop on and round again."""
    wanted = list(reachable(root))
    start = next(one for one in wanted if not isinstance(one, QAbstractSpinBox))  # a date has several stops
    start.setFocus(Qt.FocusReason.TabFocusReason)
    reached = []
    for _ in range(MOST_STOPS * len(wanted)):
        at = QApplication.focusWidget()
        if at is None or (at is start and reached):
            break
        reached.append(at)
        QTest.keyClick(at, Qt.Key.Key_Tab)
    return [one for one in wanted if not any(mate in reached for mate in _mates(one))]


def unseen(window):
    """What has the focus by the Tab key and is not scrolled into sight, and what is too far out to be."""
    start = next(iter(reachable(window)))
    start.setFocus(Qt.FocusReason.TabFocusReason)
    found = []
    for _ in range(len(list(reachable(window)))):
        at = QApplication.focusWidget()
        if at is None or at.visibleRegion().isEmpty():
            found.append(at and path(at))
        QTest.keyClick(at, Qt.Key.Key_Tab)
    return found


def _mates(one):
    """A widget and those of its group: from choice to choice one goes by the arrows, Tab stops at one."""
    if isinstance(one, QAbstractButton) and one.group() is not None and one.group().exclusive():
        return one.group().buttons()
    if isinstance(one, QRadioButton) and one.autoExclusive():
        return one.parentWidget().findChildren(
            QRadioButton, options=Qt.FindChildOption.FindDirectChildrenOnly
        )
    return [one]
