"""The why-panel: inputs, rule and source of a figure, beside where it was asked."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QVBoxLayout, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label, row
from greenroom.season.why import Why

WIDTH_PX = 400


class WhyPanel(QFrame):
    """Opens over the page; Escape, Close or a click elsewhere closes it."""

    def __init__(self, why: Why, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setObjectName("why")
        self.setProperty("role", "card")
        self.setFixedWidth(WIDTH_PX)
        layout = QVBoxLayout(self)
        layout.setSpacing(GAP)
        layout.addWidget(label(why.figure, "title", wrap=True))
        layout.addLayout(self._inputs(why))
        layout.addWidget(label("The rule", "strong"))
        layout.addWidget(label(why.rule, wrap=True))
        if why.sources:
            layout.addWidget(label("Where it comes from", "strong"))
        for source in why.sources:
            layout.addWidget(label(source, "quiet", wrap=True))
        self.close_button = button("Close", self.close)
        layout.addLayout(row(None, self.close_button))
        self.setAccessibleName(f"Why: {why.figure}. {why.rule}")

    def open_beside(self, anchor: QWidget) -> None:
        """Show the panel next to a widget, inside the screen."""
        self.adjustSize()
        corner = anchor.mapToGlobal(QPoint(0, anchor.height() + 4))
        bounds = anchor.window().frameGeometry()
        x = max(bounds.left() + GAP, min(corner.x(), bounds.right() - self.width() - GAP))
        y = corner.y()
        if y + self.height() > bounds.bottom() - GAP:
            y = max(bounds.top() + GAP, anchor.mapToGlobal(QPoint(0, 0)).y() - self.height() - 4)
        self.move(x, y)
        self.show()
        self.close_button.setFocus()

    @staticmethod
    def _inputs(why: Why) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(2 * GAP)
        grid.setVerticalSpacing(GAP // 2)
        grid.setColumnStretch(1, 1)
        for place, (name, value) in enumerate(why.inputs):
            grid.addWidget(label(name, "quiet"), place, 0)
            grid.addWidget(label(value, wrap=True), place, 1)
        return grid
