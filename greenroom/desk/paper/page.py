"""The print desk: puts the choices, the preview and the press together."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QIODevice, QPointF, QSaveFile, QStandardPaths, Qt, QTimer
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.look import CARD_PADDING, GAP, PAGE_MARGIN
from greenroom.desk.nothing_yet import NothingYet
from greenroom.desk.page import Page
from greenroom.desk.paper.choice import ON_LABELS, Choice, NothingToPrintError, prepare, title_of
from greenroom.desk.paper.errand import REPORT, Errand
from greenroom.desk.paper.form import Form
from greenroom.desk.paper.press import Press, Sight, fit_printer
from greenroom.desk.paper.preview import Preview
from greenroom.desk.parts import Card, button, column, label, row
from greenroom.exchange.paper.pen import Printed
from greenroom.exchange.paper.report import report_years
from greenroom.exchange.paper.sizes import Box, SizeError
from greenroom.season.state import Touched
from greenroom.speech import tr, trn

SETTLE_MS = 120
FORM_PX = 316
MOST_SIGNS = 12
NOTHING = tr("Nothing to print yet")
LAYING_OUT = tr("Laying out…")
WAYS = {"sow": tr("Sow a tray"), "harden": tr("Go to Harden"), "setout": tr("Go to Set out")}


class PaperPage(Page):
    """Shows what would be printed as it is chosen, and sends it to a file or a printer."""

    key = "paper"

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._choice: Choice | None = None
        self._back = ""
        self._page = 0
        self._stale = True
        self.form = Form()
        self.preview = Preview(bench.look)
        self.steps = {key: self._step(key, words) for key, words in WAYS.items()}
        self.nothing = NothingYet(NOTHING, "", *self.steps.values(), inside=True)
        self.shown = QStackedWidget()
        self.press = Press(self)
        self.save_button = button(tr("Save as PDF…"), self._ask_file, name="save-pdf")
        self.print_button = button(tr("Print…"), self._ask_printer, "primary", name="print")
        self.cancel_button = button(tr("Stop", sense="printing"), self.cancel, name="stop-print")
        self.back_button = button(tr("Back"), self._go_back, "link", name="paper-back")
        self.before = button("‹", lambda: self._turn(-1), name="page-before")
        self.after = button("›", lambda: self._turn(1), name="page-after")
        self.page_words = label("", "quiet")
        self.told = label("", "quiet", wrap=True)
        self._settle = QTimer(self, singleShot=True, interval=SETTLE_MS)
        self._resized = QTimer(self, singleShot=True, interval=SETTLE_MS)
        self._lay_out()
        self._connect()
        self._show_words(LAYING_OUT)

    @property
    def printed(self) -> Printed | None:
        """The document that is shown."""
        return self.preview.sight.printed if self.preview.sight is not None else None

    def open_for(self, errand: Errand) -> None:
        """Show what is wanted, for all holders or one."""
        self._back = errand.back
        self.back_button.setVisible(bool(errand.back))
        self.form.choose(errand.kind)
        self.form.offer(self.bench.keeper.season, errand.holder)
        self._page = 0
        self._settle.start()

    def take(self, touched: Touched) -> None:  # noqa: ARG002 anything may be on a sheet
        self._stale = True
        if self.isVisible():
            self._settle.start()

    def entered(self) -> None:
        errand = self.bench.errand(self.key)
        if isinstance(errand, Errand):
            self.open_for(errand)
        elif self._stale or self._choice is None:
            season = self.bench.keeper.season
            first = next((one.key for one in season.holders("tray")), None)
            self.form.offer(season, first if self._choice is None else None)
            self._settle.start()

    def leave(self) -> None:
        self._settle.stop()
        self._resized.stop()
        self._stale = True

    def closing(self) -> None:
        self.leave()
        self.press.cancel()

    def save(self, path: str) -> bool:
        """Write the document to a file, whole or not at all; tell whether that went well."""
        if self.printed is None:
            return False
        file = QSaveFile(path)
        written = file.open(QIODevice.OpenModeFlag.WriteOnly) and file.write(self.printed.pdf) >= 0
        if not (written and file.commit()):
            self.bench.say(
                tr(
                    "{name} was not written: {reason}.",
                    name=Path(path).name,
                    reason=file.errorString(),
                )
            )
            return False
        self.told.setText(tr("Written to {path}.", path=path))
        return True

    def print_on(self, printer: QPrinter) -> None:
        """Print the document at its true size."""
        if self.printed is not None:
            fit_printer(printer, self.printed)
            self.press.send(self.printed, printer)
            self.told.setText(tr("On its way to the printer…"))
            self._show_state()

    def cancel(self) -> None:
        """Stop what is under way."""
        self.press.cancel()
        self.told.setText(tr("Stopped."))
        self._show_state()

    def make(self) -> None:
        """Make the document anew, as it is chosen and as the season stands."""
        keeper = self.bench.keeper
        self._stale = False
        if self.form.kind == REPORT:
            self.form.offer_years(report_years(keeper.season, keeper.today))
        try:
            before, self._choice = self._choice, self.form.choice()
            making = prepare(keeper.season, self._choice, keeper.today, keeper.now)
        except NothingToPrintError as error:
            self.press.cancel()
            self._show_words(str(error), error.page)
            return
        except SizeError as error:
            self.press.cancel()
            self._show_words(str(error))
            return
        if before is None or before.kind != self._choice.kind:
            self._show_words(LAYING_OUT)
        self.press.make(making, self._page, *self.preview.dots())
        self._show_state()

    def _turn(self, by: int) -> None:
        if self.printed is not None and not self.press.looking:
            self._page = max(0, min(self._page + by, self.printed.pages - 1))
            self.press.turn_to(self.printed, self._page, *self.preview.dots())

    def _show_sight(self, sight: Sight) -> None:
        self._page = sight.page
        labels: tuple[Box, ...] = ()
        first = 0
        if self._choice is not None and self._choice.kind in ON_LABELS:
            sheet = self._choice.sheet
            self.form.show_start(sheet)
            labels = () if sheet.to_cut else tuple(sheet.place(place) for place in range(sheet.places))
            first = self._choice.start if sight.page == 0 else 0
        self.preview.show_sight(sight, labels, first)
        self.shown.setCurrentWidget(self.preview)
        self.told.setText(_missing_words(sight.printed))
        self._show_state()

    def _show_words(self, words: str, page: str = "") -> None:
        """Show why there is no page, and the way to where that is put right, if there is one."""
        self.preview.show_words(words)
        self.nothing.say(NOTHING, words)
        for key, step in self.steps.items():
            step.setVisible(key == page)
        self.shown.setCurrentWidget(self.nothing if page else self.preview)
        self.told.setText("")
        self._show_state()

    def _show_state(self) -> None:
        """Show what can be done now."""
        printed = self.printed
        there = printed is not None and not self.press.printing and not self.press.looking
        self.save_button.setEnabled(there)
        self.print_button.setEnabled(there)
        self.cancel_button.setVisible(self.press.printing)
        pages = printed.pages if printed is not None else 0
        self.before.setEnabled(self._page > 0)
        self.after.setEnabled(self._page < pages - 1)
        if printed is None or self.press.looking:
            self.page_words.setText(tr("laying out…") if self.press.looking else "")
            return
        paper = printed.paper
        size = tr(
            "{name}, {width_mm:g} x {height_mm:g} mm",
            name=paper.name,
            width_mm=paper.width_mm,
            height_mm=paper.height_mm,
        )
        self.page_words.setText(
            tr("page {page} of {pages} · {size}", page=self._page + 1, pages=pages, size=size)
        )

    def _begin_at(self, point: QPointF) -> None:
        if self._choice is None or self._choice.kind not in ON_LABELS or self._page:
            return
        sheet = self._choice.sheet
        for place in range(sheet.places):
            box = sheet.place(place)
            inside = 0 <= point.x() - box.left < box.width and 0 <= point.y() - box.top < box.height
            if inside:
                self.form.begin_at(place)
                return

    def _on_change(self) -> None:
        self._page = 0
        self.form.offer(self.bench.keeper.season)
        self._settle.start()

    def _on_sent(self, pages: int) -> None:
        self.told.setText(trn("{n:,} page sent to the printer.", "{n:,} pages sent to the printer.", pages))
        self._show_state()

    def _on_failed(self, sentence: str) -> None:
        self.bench.say(sentence)
        self.told.setText("")
        self._show_state()

    def _ask_file(self) -> None:
        keeper = self.bench.keeper
        if self._choice is None:
            return
        folder = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        name = _file_name(title_of(keeper.season, self._choice, keeper.today))
        dialog = QFileDialog(self, tr("Save as PDF"), folder, "PDF (*.pdf)")
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix("pdf")
        dialog.selectFile(name)
        dialog.fileSelected.connect(self.save)
        dialog.open()

    def _ask_printer(self) -> None:
        if self.printed is None:
            return
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        fit_printer(printer, self.printed)
        dialog = QPrintDialog(printer, self)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.setMinMax(1, self.printed.pages)
        dialog.accepted.connect(lambda: self.print_on(printer))
        QDialog.open(dialog)

    def _step(self, page: str, words: str) -> QPushButton:
        return button(words, lambda: self.bench.show_page(page), "primary", name=f"paper-to-{page}")

    def _go_back(self) -> None:
        self.bench.show_page(self._back)

    def _connect(self) -> None:
        self._settle.timeout.connect(self.make)
        self.form.changed.connect(self._on_change)
        self._resized.timeout.connect(lambda: self._turn(0))
        self.preview.resized.connect(self._resized.start)
        self.preview.pressed.connect(self._begin_at)
        self.press.seen.connect(self._show_sight)
        self.press.sent.connect(self._on_sent)
        self.press.failed.connect(self._on_failed)
        self.press.progressed.connect(
            lambda share: self.told.setText(tr("Printing, {share:.0%} sent.", share=share))
        )

    def _lay_out(self) -> None:
        self.before.setAccessibleName(tr("page before"))
        self.after.setAccessibleName(tr("next page"))
        self.back_button.hide()
        left = Card(tr("On paper"))
        left.head.addWidget(self.back_button)
        inner = QWidget()
        inner.setObjectName("ground")
        inner.setLayout(column(self.form, None))
        inner.setContentsMargins(0, 0, GAP, 0)
        left.setFixedWidth(max(FORM_PX, inner.minimumSizeHint().width() + 2 * CARD_PADDING + 2))
        scroller = QScrollArea()
        scroller.setWidgetResizable(True)
        scroller.setFrameShape(QFrame.Shape.NoFrame)
        scroller.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroller.setWidget(inner)
        left.body.addWidget(scroller, 1)
        left.body.addWidget(self.told)
        left.body.addLayout(row(self.save_button, self.cancel_button, None, self.print_button))
        right = Card(tr("Preview"))
        right.head.addWidget(self.page_words)
        right.head.addWidget(self.before)
        right.head.addWidget(self.after)
        for part in (self.preview, self.nothing):
            self.shown.addWidget(part)
        right.body.addWidget(self.shown, 1)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(PAGE_MARGIN, GAP + 4, PAGE_MARGIN, GAP + 4)
        layout.setSpacing(GAP + 4)
        beside = QVBoxLayout()
        beside.addWidget(right)
        layout.addWidget(left)
        layout.addLayout(beside, 1)


def _missing_words(printed: Printed) -> str:
    signs = sorted(printed.missing)
    if not signs:
        return ""
    shown = " ".join(signs[:MOST_SIGNS]) + (" …" if len(signs) > MOST_SIGNS else "")
    return trn(
        "The typeface lacks {n:,} sign, shown as an empty square: {signs}",
        "The typeface lacks {n:,} signs, shown as an empty square: {signs}",
        len(signs),
        signs=shown,
    )


def _file_name(title: str) -> str:
    """Return a title as a file name: nothing in it that a file system takes for a path."""
    kept = "".join(sign if sign.isalnum() or sign in " -_.," else "-" for sign in title)
    return f"{kept.strip(' .')[:100]}.pdf"
