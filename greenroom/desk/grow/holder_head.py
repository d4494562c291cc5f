"""The head of the open tray: its name and figures, and its place and mix to be edited in line."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDoubleSpinBox, QFrame, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.elided import Elided
from greenroom.desk.grow.acts import Acts
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label, row
from greenroom.desk.units import volume
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Counts, Holder
from greenroom.season.temperatures import from_celsius, temperature, to_celsius, unit_sign
from greenroom.speech import tr

COLDEST_C, WARMEST_C = -10.0, 60.0
NOT_KNOWN = tr("not known")


def holder_words(holder: Holder, counts: Counts, unit: str, volume_unit: str) -> str:
    """Return what a holder is: "sown 12 March · mix 24 °C · 6 × 12 cells"."""
    words = []
    if counts.first_sown is not None and counts.sown:
        words.append(tr("sown {day}", day=day_words(counts.first_sown)))
    if holder.mix_c is not None:
        words.append(tr("mix {temperature}", temperature=mix_words(holder.mix_c, unit)))
    words.append(_size_words(holder))
    if holder.size:
        words.append(holder.size)
    if holder.place:
        words.append(holder.place)
    if holder.cell_ml is not None:
        words.append(tr("{volume} each", volume=volume(holder.cell_ml, volume_unit)))
    return " · ".join(words)


def _size_words(holder: Holder) -> str:
    rows, columns = holder.rows, holder.columns
    if holder.form == "rack":
        return tr("{rows} × {columns} pots", rows=rows, columns=columns)
    if holder.form == "bed":
        return tr("{rows} × {columns} places", rows=rows, columns=columns)
    return tr("{rows} × {columns} cells", rows=rows, columns=columns)


def mix_words(mix_c: float, unit: str) -> str:
    """Return the temperature of a mix; half degrees are kept in °C."""
    return temperature(mix_c, unit, 1 if unit == "c" else 0)


def count_words(holder: Holder, counts: Counts) -> str:
    """Return how far a holder has come: "66 of 72 up · 92 %", or "14 of 18 pots"."""
    if counts.sown == 0:
        if holder.form == "rack":
            return tr("{living} of {spots} pots", living=counts.living, spots=counts.spots)
        return tr("{living} of {spots} cells", living=counts.living, spots=counts.spots)
    return tr(
        "{up} of {sown} up · {share:.0f} %",
        up=counts.up,
        sown=counts.sown,
        share=counts.up / counts.sown * 100,
    )


class HolderHead(QWidget):
    """Title line of the open holder."""

    edit_asked = Signal()
    care_asked = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self.title = label("", "title")
        self.aside = Elided(bench.look, lines=2)
        self.count = label("", "good")
        self.edit = button(tr("Edit"), self.edit_asked.emit, "link", name="edit-holder")
        self.edit.setToolTip(tr("Where it stands, how warm its mix is, put it away"))
        self.care = button(tr("Care"), self.care_asked.emit, "link", name="care-of-holder")
        self.care.setToolTip(tr("Water, feed and look over (Ctrl+K)"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.title)
        layout.addWidget(self.aside, 1)
        layout.addWidget(self.count)
        layout.addWidget(self.care)
        layout.addWidget(self.edit)

    def show_holder(self, holder: Holder | None, counts: Counts | None) -> None:
        """Show a holder's name and figures."""
        self.setVisible(holder is not None)
        if holder is None or counts is None:
            return
        place = self._bench.keeper.place
        self.title.setText(holder.name)
        self.aside.show_text(holder_words(holder, counts, place.temperature, place.volume))
        self.count.setText(count_words(holder, counts))


class HolderEdit(QFrame):
    """Place, mix and the way out of use, in line below the head."""

    closed = Signal()

    def __init__(self, bench: Bench, acts: Acts) -> None:
        super().__init__()
        self.setProperty("role", "hint")
        self._bench = bench
        self._acts = acts
        self._holder: Holder | None = None
        self._unit = "c"
        self.place = QLineEdit()
        self.place.setObjectName("holder-place")
        self.place.setMaxLength(80)
        self.place.setPlaceholderText(tr("shelf 1, heat mat"))
        self.mix = QDoubleSpinBox()
        self.mix.setObjectName("holder-mix")
        self.mix.setDecimals(1)
        self.mix.setSpecialValueText(NOT_KNOWN)
        stands = label(tr("Stands", sense="where it does"), "quiet")
        warm = label(tr("Mix", sense="that plants grow in"), "quiet")
        stands.setBuddy(self.place)
        warm.setBuddy(self.mix)
        self.place.setAccessibleName(tr("where it stands"))
        self.mix.setAccessibleName(tr("temperature of the mix"))
        self.save = button(tr("Save"), self.commit, "primary", name="save-holder")
        self.cancel = button(tr("Cancel"), self.close_unsaved, name="cancel-holder")
        self.away = button(tr("Put away"), self._put_away, name="put-away")
        self.away.setToolTip(tr("Emptied and washed: out of use"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(GAP, GAP // 2, GAP, GAP // 2)
        layout.addLayout(row(stands, self.place, warm, self.mix))
        layout.addLayout(row(self.save, self.cancel, None, self.away))
        self.hide()

    def open_for(self, holder: Holder) -> None:
        """Edit a holder."""
        self._holder = holder
        self._unit = unit = self._bench.keeper.place.temperature
        low, high = from_celsius(COLDEST_C, unit), from_celsius(WARMEST_C, unit)
        self.mix.setRange(low - 1, high)  # one below the coldest stands for "not known"
        self.mix.setSuffix(f" {unit_sign(unit)}")
        self.mix.setValue(low - 1 if holder.mix_c is None else from_celsius(holder.mix_c, unit))
        self.place.setText(holder.place)
        self.show()
        self.place.setFocus(Qt.FocusReason.OtherFocusReason)

    def commit(self) -> None:
        """Write what was changed and close."""
        if self.isHidden() or self._holder is None:
            return
        if self._changed():
            self._acts.place(self._holder.key, self.place.text().strip(), self._mix_c())
        self.close_unsaved()

    def close_unsaved(self) -> None:
        """Close without writing."""
        self.hide()
        self._holder = None
        self.closed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.commit()
        elif event.key() == Qt.Key.Key_Escape:
            self.close_unsaved()
        else:
            super().keyPressEvent(event)

    def _mix_c(self) -> float | None:
        value = self.mix.value()
        coldest = from_celsius(COLDEST_C, self._unit)
        return None if value < coldest else round(to_celsius(value, self._unit), 2)

    def _changed(self) -> bool:
        if self._holder is None:
            return False
        mix_c, before = self._mix_c(), self._holder.mix_c
        same_mix = mix_c == before if mix_c is None or before is None else abs(mix_c - before) < 0.06
        return self.place.text().strip() != self._holder.place or not same_mix

    def _put_away(self) -> None:
        if self._holder is not None and self._acts.retire(self._holder.key):
            self.close_unsaved()
