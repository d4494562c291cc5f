"""One picture of a story, as large as the panel lets it be, in place of the lines."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QImage, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label, row, show_words
from greenroom.desk.story.thumbs import Shown
from greenroom.season.hardening_words import day_words
from greenroom.season.story import Line
from greenroom.season.weekdays import dated_words
from greenroom.speech import tr

SMALLEST = QSize(80, 48)
STEPS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}


class Canvas(QWidget):
    """Paints an image whole, in the middle."""

    def __init__(self) -> None:
        super().__init__()
        self.image = QImage()
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Ignored)
        self.setMinimumSize(SMALLEST)

    def show_image(self, image: QImage, name: str) -> None:
        """Show another image."""
        self.image = image
        self.setAccessibleName(name)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self.image.isNull():
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        size = self.image.size()
        if size.width() > self.width() or size.height() > self.height():
            size = size.scaled(self.size(), Qt.AspectRatioMode.KeepAspectRatio)
        place = self.rect()
        place.setSize(size)
        place.moveCenter(self.rect().center())
        painter.drawImage(place, self.image)
        painter.end()


class LargerView(QWidget):
    """A picture with its day; the arrow keys go from picture to picture, Escape back to the story."""

    closed = Signal()
    stepped = Signal(int)

    def __init__(self) -> None:
        super().__init__()
        self.line: Line | None = None
        self.canvas = Canvas()
        self.words = label("", "quiet", wrap=True)
        self.trouble = label("", "alert", wrap=True)
        self.back = button(tr("Back to the story"), self.closed.emit, "link", name="close-picture")
        self.earlier = button(
            tr("Earlier", sense="picture"), lambda: self.stepped.emit(-1), "link", name="earlier-picture"
        )
        self.later = button(
            tr("Later", sense="picture"), lambda: self.stepped.emit(1), "link", name="later-picture"
        )
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        layout.addLayout(row(self.back, None, self.earlier, self.later))
        layout.addWidget(self.canvas, 1)
        layout.addWidget(self.trouble)
        layout.addWidget(self.words)

    def open_line(self, line: Line, place: int, number: int) -> None:
        """Show the frame of a picture; its pixels follow."""
        self.line = line
        sides = (
            tr("{width} × {height} pixels", width=line.picture.width, height=line.picture.height)
            if line.picture
            else ""
        )
        self.words.setText(
            tr(
                "{day}, picture {place} of {number}, {size}",
                day=dated_words(line.day),
                place=place + 1,
                number=number,
                size=sides,
            )
        )
        self.trouble.hide()
        self.canvas.show_image(QImage(), "")
        self.earlier.setEnabled(place > 0)
        self.later.setEnabled(place + 1 < number)

    def show_picture(self, shown: dict[str, Shown]) -> None:
        """Show the pixels, or what is wrong with the file."""
        if self.line is None or self.line.fact not in shown:
            return
        found = shown[self.line.fact]
        self.canvas.show_image(found.image, tr("picture of {day}", day=day_words(self.line.day)))
        show_words(self.trouble, found.trouble)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
        elif event.key() in STEPS:
            self.stepped.emit(STEPS[Qt.Key(event.key())])
        else:
            super().keyPressEvent(event)
