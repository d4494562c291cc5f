"""The press: makes the pages, their pictures and the print, off the window's thread, one after the other."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QMarginsF, QObject, QRectF, QSizeF, Signal
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrinter

from greenroom.desk.paper.choice import Making
from greenroom.desk.worker import Cancelled, Progress, Worker
from greenroom.exchange.errors import Cancelled as CalledOff
from greenroom.exchange.paper.pen import Printed
from greenroom.exchange.paper.picture import picture_of
from greenroom.exchange.paper.sizes import SizeError
from greenroom.speech import tr

MM_AN_INCH = 25.4
MOST_DOTS = 600
"""Dots an inch a page is drawn with for a printer; finer ones would fill the memory and show no more."""


class PrintError(Exception):
    """The printer does not take the pages; the message is one sentence."""


@dataclass(frozen=True, slots=True)
class Sight:
    """The document with one of its pages as a picture."""

    printed: Printed
    page: int
    image: QImage


class Press(QObject):
    """Shows pages and prints them; a new wish takes the place of one under way.

    ``seen`` carries a `Sight`, ``sent`` how many pages the printer took, ``failed`` one sentence.
    """

    seen = Signal(object)
    sent = Signal(int)
    failed = Signal(str)
    progressed = Signal(float)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._looking: Worker[Sight] = Worker((CalledOff, SizeError), self)
        self._printing: Worker[int] = Worker((CalledOff, PrintError), self)
        self._looking.finished.connect(lambda sight: self.seen.emit(sight))
        self._printing.finished.connect(lambda pages: self.sent.emit(pages))
        self._printing.progressed.connect(lambda share: self.progressed.emit(share))
        for worker in (self._looking, self._printing):
            worker.failed.connect(self._tell)

    @property
    def looking(self) -> bool:
        """Whether a page is being made."""
        return self._looking.running

    @property
    def printing(self) -> bool:
        """Whether pages are on their way to a printer."""
        return self._printing.running

    def make(self, making: Making, page: int, width_px: int, height_px: int) -> None:
        """Make a document anew and show one of its pages, as large as goes into so many dots."""

        def work(_progress: Progress, stop: Cancelled) -> Sight:
            printed = making(stop)
            return _sight(printed, min(page, printed.pages - 1), width_px, height_px)

        self._looking.start(work)

    def turn_to(self, printed: Printed, page: int, width_px: int, height_px: int) -> None:
        """Show another page of a document."""
        self._looking.start(lambda _progress, _stop: _sight(printed, page, width_px, height_px))

    def send(self, printed: Printed, printer: QPrinter) -> None:
        """Print a document at its true size."""
        self._printing.start(lambda progress, stop: print_pages(printed, printer, progress, stop))

    def cancel(self) -> None:
        """Stop what is under way; a print ends after the page it is at."""
        self._looking.cancel()
        self._printing.cancel()

    def _tell(self, error: Exception) -> None:
        if not isinstance(error, CalledOff):
            self.failed.emit(str(error))


def fit_printer(printer: QPrinter, printed: Printed) -> None:
    """Set a printer to a document's paper, without margins, so that nothing is shrunk to fit."""
    wide = printed.paper.width_mm > printed.paper.height_mm
    short, long = sorted((printed.paper.width_mm, printed.paper.height_mm))
    size = QPageSize(QSizeF(short, long), QPageSize.Unit.Millimeter, printed.paper.name)
    lying = QPageLayout.Orientation.Landscape if wide else QPageLayout.Orientation.Portrait
    printer.setFullPage(True)
    printer.setPageLayout(QPageLayout(size, lying, QMarginsF(0, 0, 0, 0), QPageLayout.Unit.Millimeter))
    printer.setFullPage(True)


def print_pages(printed: Printed, printer: QPrinter, progress: Progress, stop: Cancelled) -> int:
    """Send the pages that a printer was asked for, each at its true size; return how many.

    Raises
    ------
    PrintError
        If the printer takes none.
    CalledOff
        If the work was called off.
    """
    first, last = printer.fromPage() or 1, min(printer.toPage() or printed.pages, printed.pages)
    painter = QPainter()
    if not painter.begin(printer):
        raise PrintError(tr("The printer did not take the pages; see whether it is on and reachable."))
    dots = printer.resolution()
    paper = QRectF(
        0, 0, printed.paper.width_mm / MM_AN_INCH * dots, printed.paper.height_mm / MM_AN_INCH * dots
    )
    try:
        for number, page in enumerate(range(first - 1, last)):
            if stop():
                printer.abort()
                raise CalledOff
            if number:
                printer.newPage()
            painter.drawImage(paper, _image(printed, page, min(dots, MOST_DOTS)))
            progress((number + 1) / (last - first + 1))
    finally:
        painter.end()
    return last - first + 1


def _sight(printed: Printed, page: int, width_px: int, height_px: int) -> Sight:
    wide, high = printed.paper.width_mm / MM_AN_INCH, printed.paper.height_mm / MM_AN_INCH
    return Sight(printed, page, _image(printed, page, max(20.0, min(width_px / wide, height_px / high))))


def _image(printed: Printed, page: int, dots: float) -> QImage:
    picture = picture_of(printed.pdf, page, dots)
    made = QImage(picture.rgb, picture.width, picture.height, picture.stride, QImage.Format.Format_RGB888)
    return made.copy()  # Qt reads the bytes in place, and they go with the picture
