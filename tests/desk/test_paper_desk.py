"""The print desk as a grower uses it: choose, look, save, print; and the code field that leads back."""

import pypdf
import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLineEdit

from greenroom.desk.bench import Bench
from greenroom.desk.look import Look
from greenroom.desk.pages import page_makers
from greenroom.desk.paper.code_field import CodeField
from greenroom.desk.paper.errand import KINDS, Errand
from greenroom.desk.paper.form import OWN
from greenroom.desk.paper.page import PaperPage, _file_name
from greenroom.desk.paper.press import fit_printer, print_pages
from greenroom.desk.paper.way import paper_button
from greenroom.desk.window import Window
from greenroom.exchange.errors import Cancelled
from greenroom.exchange.paper.pen import Pen, Printed
from greenroom.exchange.paper.sizes import A4, LETTER, SHEETS, sheets_of
from greenroom.exchange.paper.tags import Label, print_labels
from greenroom.season.deeds_spots import mark_up
from greenroom.season.spots import SpotKey
from tests.desk.test_place_accessible import SMALLEST_TARGET_PX, reachable, spoken
from tests.exchange.paper_reading import codes, pages, size_mm

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # the platform without a screen

LEFT = Qt.MouseButton.LeftButton
CLOSE_MM = 0.3
DOTS = 200


@pytest.fixture
def page(qtbot, qapp, bench, shelf):
    Window.dress_application(bench.look)
    made = PaperPage(bench)
    qtbot.addWidget(made, before_close_func=lambda _page: qapp.setStyleSheet(""))
    made.form.paper.setCurrentIndex(0)  # A4, wherever the tests run
    made.resize(1024, 614)
    made.show()
    qtbot.waitExposed(made)
    made.entered()
    laid_out(qtbot, made)
    yield made
    made.closing()


def laid_out(qtbot, page, pages=None):
    """Wait until what is chosen is shown, with so many pages."""

    def shown():
        busy = page._settle.isActive() or page.press.looking or page.printed is None
        return not busy and pages in (None, page.printed.pages)

    qtbot.waitUntil(shown, timeout=8000)


def test_tags_are_chosen_begun_on_a_used_sheet_and_saved(qtbot, page, bench, tmp_path):
    tray = bench.keeper.season.holders("tray")[0]
    page.form.holder.setCurrentIndex(page.form.holder.findData(tray.key))
    laid_out(qtbot, page)
    assert page.printed.pages == 2  # 36 cells sown, 24 labels a sheet
    QTest.mouseClick(page.after, LEFT)
    laid_out(qtbot, page)
    assert page.page_words.text().startswith("page 2 of 2")
    page.form.each.setCurrentIndex(1)
    laid_out(qtbot, page, pages=1)
    assert {text.rsplit("/", 3)[-3] for text, *_ in codes(page.printed)} == {"1"}

    sheet = SHEETS[0]
    box, shown = sheet.place(13), page.preview._page()
    scale = shown.width() / A4.width_mm
    middle = shown.topLeft() + (QPoint(1, 0) * (box.left + 9) + QPoint(0, 1) * (box.top + 9)) * scale
    QTest.mouseClick(page.preview, LEFT, Qt.KeyboardModifier.NoModifier, middle.toPoint())
    assert page.form.start.value() == 14
    laid_out(qtbot, page, pages=1)
    assert "row 5, column 2" in page.form.where.text()
    lefts = sorted(left for _, left, *_ in codes(page.printed))
    assert 70 < lefts[0] < 140 < lefts[1]  # the second and the third column

    page.form.sheet.setCurrentIndex(page.form.sheet.findText(OWN))
    fields = page.form.measures.fields
    assert [one for one in reachable(page) if not spoken(one).strip()] == []
    targets = [one for one in reachable(page) if isinstance(one, QAbstractButton | QLineEdit | QComboBox)]
    assert [spoken(one) for one in targets if one.height() < SMALLEST_TARGET_PX] == []
    assert fields["rows"].isVisible()
    fields["rows"].setValue(7)
    fields["down_mm"].setValue(40.0)
    laid_out(qtbot, page, pages=1)
    assert page.preview._labels[-1] == pytest.approx((140.0, 240.5, 70.0, 37.0))
    fields["down_mm"].setValue(30.0)
    qtbot.waitUntil(lambda: page.printed is None, timeout=8000)
    assert "would overlap" in page.preview.accessibleDescription()
    fields["down_mm"].setValue(37.0)
    laid_out(qtbot, page)

    printer = QPrinter()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    page.print_on(printer)
    assert page.cancel_button.isVisible()
    qtbot.waitUntil(lambda: page.told.text() == "1 page sent to the printer.", timeout=8000)
    assert len(pypdf.PdfReader(tmp_path / "printed.pdf").pages) == 1

    path = tmp_path / "tags.pdf"
    assert page.save(str(path))
    assert len(pypdf.PdfReader(path).pages) == 1
    assert not page.save(str(tmp_path / "nowhere" / "tags.pdf"))
    assert "tags.pdf was not written" in bench.said[-1]


def test_every_kind_of_sheet_shows_a_page_or_says_why_there_is_none(qtbot, page, bench):
    empty = {"card": "begin one on Harden", "plot": "draw a bed on Set out"}
    for kind in KINDS:
        QTest.mouseClick(page.form.radios[kind], LEFT, pos=QPoint(8, 12))
        qtbot.waitUntil(lambda: not page._settle.isActive() and not page.press.looking, timeout=8000)
        if kind in empty:
            assert page.printed is None
            assert empty[kind] in page.preview.accessibleDescription()
            assert not page.print_button.isEnabled()
        else:
            assert page.preview.accessibleDescription().startswith("page 1 of")
            assert page.save_button.isEnabled()

    before = page.printed.pdf  # the season report comes last
    tray = bench.keeper.season.holders("tray")[0].key
    bench.keeper.changed.connect(page.take)
    bench.keeper.do(lambda: mark_up(bench.keeper.season, [SpotKey(tray, 5, 5)], bench.keeper.today))
    laid_out(qtbot, page)
    assert page.printed.pdf != before  # a sheet follows what happens meanwhile

    way = paper_button(bench, lambda: Errand("map", tray, "sow"))
    qtbot.addWidget(way)
    QTest.mouseClick(way, LEFT)
    assert bench.shown == ["paper"]
    page.entered()
    laid_out(qtbot, page, pages=1)
    assert (page.form.kind, page.form.holder.currentData()) == ("map", tray)
    QTest.mouseClick(page.back_button, LEFT)
    assert bench.shown == ["paper", "sow"]


def test_the_printer_gets_every_page_at_its_true_size(qapp, tmp_path):
    """Printed through Qt into a file and read back: the codes lie where the sheet was measured."""
    sheet = sheets_of(LETTER)[0]
    labels = [Label("Cinder Lantern", ("Tray A, B3",), f"greenroom:spot/x/1/{n}") for n in range(1, 3)]
    printed = print_labels(labels, sheet, sheet.places - 1)
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "out.pdf"))
    printer.setResolution(DOTS)
    fit_printer(printer, printed)
    shares = []
    assert print_pages(printed, printer, shares.append, lambda: False) == 2
    assert shares == [0.5, 1.0]
    out = Printed((tmp_path / "out.pdf").read_bytes(), 2, sheet.paper)
    assert size_mm(pages(out)[0]) == pytest.approx((215.9, 279.4), abs=0.2)  # ANSI/ASME Y14.1, size A
    for page in range(2):
        ((text, *box),) = codes(out, page, DOTS)
        ((wanted, *lies),) = codes(printed, page, DOTS)
        assert text == wanted
        assert box == pytest.approx(lies, abs=CLOSE_MM)


def test_a_print_that_is_stopped_ends_at_its_page(qapp, tmp_path):
    pen = Pen(LETTER, "three")
    pen.next_page()
    pen.next_page()
    printer = QPrinter()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "out.pdf"))
    shares = []
    with pytest.raises(Cancelled):
        print_pages(pen.end(), printer, shares.append, lambda: bool(shares))
    assert len(shares) == 1


def test_a_file_is_named_after_what_it_holds_whatever_the_tray_is_called():
    assert (
        _file_name("Plant tags ../../etc/pass:wd\x00 2027-05-14")
        == "Plant tags ..-..-etc-pass-wd- 2027-05-14.pdf"
    )


def test_a_scanned_code_opens_its_story_and_a_strange_one_is_told(qtbot, bench, shelf):
    tray = bench.keeper.season.holders("tray")[0].key
    field = CodeField(bench)
    qtbot.addWidget(field)
    field.show()
    QTest.keyClicks(field, f"greenroom:spot/{tray}/2/1/2027-03-12")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert bench.shown == ["grow"]
    assert bench.errand("grow") == SpotKey(tray, 1, 0)
    assert bench.errand("grow") is None
    assert field.text() == ""
    QTest.keyClicks(field, "5901234123457\r")
    assert "no place" in bench.said[-1]
    assert field.selectedText() == "5901234123457"


def press(window, sign):
    """A key as the system hands it to a window."""
    key = Qt.Key.Key_Return if sign == "\r" else Qt.Key(ord(sign.upper()))
    for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
        QApplication.sendEvent(window, QKeyEvent(kind, key, Qt.KeyboardModifier.NoModifier, sign))


def test_in_the_window_a_scan_leads_from_any_page_to_the_seedlings_story(qtbot, keeper, shelf):
    window = Window(Bench(keeper, Look(dark=False)), page_makers())
    qtbot.addWidget(window)
    window.show_page("round")
    window.show()
    qtbot.waitExposed(window)
    tray = keeper.season.holders("tray")[0].key
    assert not window.top.code.isVisible()
    QTest.mouseClick(window.top.find_code, Qt.MouseButton.LeftButton)
    assert window.top.code.isVisible()
    QTest.keyClicks(window.top.code, f"greenroom:spot/{tray}/2/1/2027-03-12\r")
    page = window.pages["grow"]
    assert window.current == "grow"
    assert not window.top.code.isVisible()
    assert page.panel.key == SpotKey(tray, 1, 0)
    assert page.panel.isVisible()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    page.main.view.go_to((0, 0))
    page.main.view.setFocus()
    before = keeper.ledger.entries()
    assert page.main.view.hasFocus()
    for sign in f"greenroom:spot/{tray}/3/2/2027-03-12\r":  # scanned while a tray has the focus
        press(window.windowHandle(), sign)
    assert page.panel.key == SpotKey(tray, 2, 1)
    assert keeper.ledger.entries() == before  # no letter of it was taken for a key of the tray
    page.main.view.setFocus()
    press(window.windowHandle(), "g")  # typed by hand it waits a moment, and is no code
    press(window.windowHandle(), "m")
    assert page.hand.active
    QTest.keyClick(page.main.view, Qt.Key.Key_Escape)

    QTest.keyClicks(window.top.code, "Rack 1\r")
    assert page.beside_key == keeper.season.holders("rack")[0].key
    window.close()
