"""The causes of a sign, the likeliest first, each with what to check and what to do."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QLabel,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.care.look_over_sheet import headed, sources_label, sources_text
from greenroom.desk.look import GAP, Look
from greenroom.desk.parts import button, label, plain_tip, plain_words, row
from greenroom.season.troubles import HOW_LIKELY, Ranked, Ranking
from greenroom.season.troubles_why import in_unit
from greenroom.speech import tr

BAR_PX, NAME_SHARE, BAR_SHARE, WORDS_PX = 12, 3, 2, 76
LEAST_PX = 120
ELIDE = Qt.TextElideMode.ElideRight


class ShareBar(QWidget):
    """How much of the weight of all causes is this one's."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.share = 0.0
        self.setFixedHeight(BAR_PX)
        self.setMinimumWidth(60)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.update)

    def show_share(self, share: float, words: str) -> None:
        """Show another share."""
        self.share = share
        self.setAccessibleName(words)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(120, BAR_PX)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        whole = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        painter.setPen(QPen(self._look.colour("edge"), 1))
        painter.setBrush(self._look.colour("leaf_wash"))
        painter.drawRect(whole)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._look.colour("leaf"))
        painter.drawRect(QRectF(whole.left(), whole.top(), whole.width() * self.share, whole.height()))
        painter.end()


class CauseLink(QPushButton):
    """The name of a cause; where it has no room it ends in dots, and is whole in its tip."""

    def __init__(self, name: str) -> None:
        super().__init__(plain_words(name))
        self.name = name
        self.setObjectName("cause-name")
        self.setProperty("kind", "link")
        self.setAutoDefault(False)
        self.setToolTip(plain_tip(name))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(
            self._edges() + self.fontMetrics().horizontalAdvance(self.name), super().sizeHint().height()
        )

    def minimumSizeHint(self) -> QSize:
        return QSize(min(self.sizeHint().width(), LEAST_PX), super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        room = self.width() - self._edges()
        self.setText(plain_words(self.fontMetrics().elidedText(self.name, ELIDE, room)))

    def _edges(self) -> int:
        """Return the room that is not its words'."""
        words = self.text().replace("&&", "&")
        return super().sizeHint().width() - self.fontMetrics().horizontalAdvance(words)


class CauseRow(QFrame):
    """One cause: its name opens what to check and to do; ``settled`` asks to write it down."""

    opened = Signal()
    settled = Signal()

    def __init__(self, bench: Bench, one: Ranked) -> None:
        super().__init__()
        self.key = one.cause.key
        self.setProperty("role", "job")
        cause, place = one.cause, bench.keeper.place
        self.head = CauseLink(cause.name)
        self.head.clicked.connect(lambda _checked=False: self.opened.emit())
        self.bar = ShareBar(bench.look)
        self.words = label("", "quiet")
        self.words.setFixedWidth(_words_px(self.words))
        self.told = QWidget()
        sheet = QVBoxLayout(self.told)
        sheet.setContentsMargins(GAP, 0, 0, GAP // 2)
        sheet.setSpacing(GAP - 2)
        texts = (
            (tr("Check", sense="what to look at"), cause.check),
            (tr("Now"), cause.now),
            (tr("Next time"), cause.later),
        )
        for heading, text in texts:
            sheet.addLayout(headed(heading, label(in_unit(text, place), wrap=True)))
        sources = sources_label()
        sources.setText(sources_text(cause.citations))
        sheet.addWidget(sources)
        self.settle = button(tr("Put it down to this"), self.settled.emit, name="cause-settle")
        self.settle.setAccessibleName(tr("Put it down to: {name}", name=cause.name))
        sheet.addLayout(row(self.settle, None))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(GAP // 2, 2, GAP // 2, 2)
        layout.setSpacing(2)
        top = row(gap=GAP)
        named = row(self.head, None)
        top.addLayout(named, NAME_SHARE)
        top.addWidget(self.bar, BAR_SHARE)
        top.addWidget(self.words)
        layout.addLayout(top)
        layout.addWidget(self.told)

    def show_ranked(self, one: Ranked) -> None:
        """Show how likely it is now."""
        self.words.setText(one.words)
        self.bar.show_share(one.share, tr("{name}: {what}", name=one.cause.name, what=one.words))

    def open(self, *, wide: bool) -> None:
        """Show or hide what to check and to do."""
        self.told.setVisible(wide)
        cause, likely = self.head.name, self.words.text()
        opened = tr("{cause}, {likely}, open", cause=cause, likely=likely)
        self.head.setAccessibleName(opened if wide else f"{cause}, {likely}")


class CauseList(QWidget):
    """``settled`` carries the cause that a sign is put down to."""

    settled = Signal(str)

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._sign = ""
        self.rows: dict[str, CauseRow] = {}
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(0)

    def show_ranking(self, ranking: Ranking) -> None:
        """Show the causes in their order, the first one open."""
        fresh = ranking.sign.key != self._sign
        if fresh:
            self._build(ranking)
        before = [] if fresh else self.order
        for place, one in enumerate(ranking.causes):
            made = self.rows[one.cause.key]
            made.show_ranked(one)
            self._layout.removeWidget(made)
            self._layout.insertWidget(place, made)
            made.show()
        if before != self.order:
            self._open(ranking.first.cause.key)

    @property
    def order(self) -> list[str]:
        """The causes from the top."""
        return sorted(self.rows, key=lambda key: self._layout.indexOf(self.rows[key]))

    def _build(self, ranking: Ranking) -> None:
        for made in self.rows.values():
            self._layout.removeWidget(made)
            made.hide()
            made.deleteLater()
        self._sign = ranking.sign.key
        self.rows = {one.cause.key: CauseRow(self._bench, one) for one in ranking.causes}
        for key, made in self.rows.items():
            made.opened.connect(partial(self._toggle, key))
            made.settled.connect(partial(self.settled.emit, key))

    def _toggle(self, key: str) -> None:
        self._open("" if self.rows[key].told.isVisible() else key)

    def _open(self, key: str) -> None:
        for name, made in self.rows.items():
            made.open(wide=name == key)


def _words_px(words: QLabel) -> int:
    """Return the width in which each of the words for how likely a cause is has room."""
    words.ensurePolished()
    metrics = words.fontMetrics()
    return max(WORDS_PX, *(metrics.horizontalAdvance(one) + 4 for one in HOW_LIKELY))
