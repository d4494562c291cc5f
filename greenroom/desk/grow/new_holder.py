"""Taking a rack of pots or an empty tray into use, in line below the list."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QComboBox, QFrame, QGridLayout, QLineEdit, QSpinBox, QVBoxLayout, QWidget

from greenroom.agronomy.containers import pot_litres
from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label, row
from greenroom.desk.units import ML_IN_LITRE
from greenroom.season.deeds_shelf import make_holder, next_name
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Season
from greenroom.speech import tr

FORMS = (("rack", tr("rack of pots")), ("tray", tr("tray of cells")))
USUAL = {"rack": (3, 6), "tray": (6, 12)}


class NewHolder(QFrame):
    """A button that opens into a small form."""

    made = Signal(str)

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._keeper = bench.keeper
        self.open_button = button(tr("New rack or tray"), self.open_form, name="new-holder")
        self.form_box = QFrame()
        self.form_box.setProperty("role", "card")
        self.form = QComboBox()
        for form, words in FORMS:
            self.form.addItem(words, form)
        self.name = QLineEdit()
        self.name.setMaxLength(40)
        self.rows, self.columns = _side("rows"), _side("columns")
        self.size_ = QLineEdit()
        self.size_.setPlaceholderText(tr("9 cm"))
        self.size_.setMaxLength(40)
        self.form.currentIndexChanged.connect(self._on_form)
        self.make = button(tr("Take into use"), self.take_into_use, "primary", name="make-holder")
        self.cancel = button(tr("Cancel"), self.close_form, name="cancel-new-holder")
        for one in (self.make, self.cancel):
            one.setProperty("tight", "yes")
        self._lay_out()
        self.close_form()

    def open_form(self) -> None:
        """Open the form."""
        self._on_form()
        self.form_box.show()
        self.open_button.hide()
        self.form.setFocus(Qt.FocusReason.OtherFocusReason)

    def close_form(self) -> None:
        """Close the form without making anything."""
        self.form_box.hide()
        self.open_button.show()

    def take_into_use(self) -> None:
        """Make the holder."""
        season, form = self._keeper.season, self.form.currentData()
        name = self.name.text().strip() or next_name(season, form)
        if self._keeper.do(lambda: self._proposal(season, form, name)):
            self.name.clear()
            self.close_form()
            self.made.emit(next(one.key for one in season.holders() if one.name == name))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.form_box.isVisible() and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.take_into_use()
        elif self.form_box.isVisible() and event.key() == Qt.Key.Key_Escape:
            self.close_form()
        else:
            super().keyPressEvent(event)

    def _proposal(self, season: Season, form: str, name: str) -> Proposal:
        size = self.size_.text().strip() if form == "rack" else ""
        return make_holder(
            season,
            name=name,
            form=form,
            rows=self.rows.value(),
            columns=self.columns.value(),
            day=self._keeper.today,
            size=size,
            cell_ml=pot_ml(size),
        )

    def _on_form(self) -> None:
        form = self.form.currentData()
        rows, columns = USUAL[form]
        self.rows.setValue(rows)
        self.columns.setValue(columns)
        self.name.setPlaceholderText(next_name(self._keeper.season, form))
        self._size_label.setVisible(form == "rack")
        self.size_.setVisible(form == "rack")

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(GAP // 2)
        self._size_label = label(tr("Pot", sense="its size"), "quiet")
        fields: tuple[tuple[str, QWidget], ...] = (
            (tr("What", sense="rack or tray"), self.form),
            (tr("Name"), self.name),
            (tr("Rows"), self.rows),
            (tr("Across", sense="how many in a row"), self.columns),
        )
        for place, (words, field) in enumerate(fields):
            caption = label(words, "quiet")
            caption.setBuddy(field)
            field.setAccessibleName(words)
            grid.addWidget(caption, place, 0)
            grid.addWidget(field, place, 1)
        self._size_label.setBuddy(self.size_)
        self.size_.setAccessibleName(tr("Pot size"))
        grid.addWidget(self._size_label, len(fields), 0)
        grid.addWidget(self.size_, len(fields), 1)
        inside = QVBoxLayout(self.form_box)
        inside.setContentsMargins(GAP, GAP, GAP, GAP)
        inside.addLayout(grid)
        inside.addLayout(row(self.make, self.cancel))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.open_button)
        layout.addWidget(self.form_box)


def pot_ml(size: str) -> float | None:
    """Return what a pot of a trade name holds [mL], None where no name is given.

    Raises
    ------
    RefusedError
        With the names that are allowed, if it is none of them.
    """
    if not size:
        return None
    try:
        return pot_litres(size) * ML_IN_LITRE
    except ValueError as error:
        raise RefusedError(
            tr(
                "The pot name is '{name}'; it must be a class such as '#3', 'trade gallon', a top width "
                "such as '9 cm', '3.5 in' or '9 cm square', or a volume such as '2 L'",
                name=size,
            )
        ) from error


def _side(name: str) -> QSpinBox:
    made = QSpinBox()
    made.setRange(1, 100)
    made.setObjectName(f"new-{name}")
    return made
