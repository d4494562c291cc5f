"""Times entered afterwards: an outing nobody pressed a button for, or the time it really came in."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from functools import partial, reduce

from PySide6.QtWidgets import QCheckBox, QComboBox, QGridLayout

from greenroom.desk.bench import Bench
from greenroom.desk.harden.inline_panel import InlinePanel, form, left
from greenroom.desk.harden.moment_field import MomentField
from greenroom.desk.parts import button, label, row
from greenroom.ledger.facts import SetbackSeen
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.deeds_harden import (
    come_in,
    enter_outing,
    go_out,
    outing_of,
    stop_hardening,
    strike_outing,
    strike_sign,
)
from greenroom.season.deeds_outdoors import cause_again
from greenroom.season.hardening_why import ready_why
from greenroom.season.hardening_words import FROM_A_CAUSE, SETBACK_WORDS, day_words, moment_words, time_words
from greenroom.season.outings import Outing
from greenroom.season.place import Place
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.setback_preview import preview
from greenroom.season.two_clocks import two_clocks
from greenroom.speech import tr

USUAL = timedelta(minutes=60)
LATEST = 6
LIGHT_WORDS = {"sun": tr("sun"), "shade": tr("shade")}
LIGHTS = (("sun", tr("into the sun")), ("shade", tr("into shade")))


@dataclass(frozen=True, slots=True)
class _Written:
    """What is written down already: in words, how to strike it out, and what it may have been instead."""

    words: str
    strike: Callable[[], Proposal]
    other_words: str = ""
    other: Callable[[], Proposal] | None = None


class OutingPanel(InlinePanel):
    """While a holder is out the panel asks when it came in; else for a whole outing."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench, tr("&Write it down"), self._proposal)
        self._bench = bench
        self._holder = ""
        self._end_only = False
        self._listed: list[str] = []
        self.start = MomentField("went-out")
        self.light = _lights("first-light")
        self.moved = QCheckBox(tr("Mo&ved at"))
        self.moved_at = MomentField("moved-at")
        self.moved_to = label("")
        self.still_out = QCheckBox(tr("It is &still out"))
        self.end = MomentField("came-in")
        self.about = label("", wrap=True)
        self.latest = QGridLayout()
        self.latest.setVerticalSpacing(0)
        self._assemble()
        for field in (self.start, self.moved_at, self.end):
            field.dateTimeChanged.connect(lambda _: self.refresh())
        self.light.currentIndexChanged.connect(lambda _: self.refresh())
        for box in (self.moved, self.still_out):
            box.toggled.connect(lambda _: self.refresh())

    def open_for(self, holder: str) -> None:
        """Ask for the times of a holder."""
        keeper = self._bench.keeper
        self._holder = holder
        outing = outing_of(keeper.season, holder)
        self._end_only = outing is not None
        self.heading.setText(tr("When did it come in?") if outing else tr("An outing to write down"))
        start = outing.start if outing else keeper.now - USUAL
        self.start.set_moment(start, keeper.place)
        self.moved_at.set_moment(start + (keeper.now - start) / 2, keeper.place)
        self.end.set_moment(keeper.now, keeper.place)
        self.moved.setChecked(False)
        self.still_out.setChecked(False)
        self.refresh()
        (self.end if outing else self.start).setFocus()

    def refresh(self) -> None:
        """Show the fields that apply, what confirming would do, and what is written down already."""
        keeper = self._bench.keeper
        before = two_clocks(keeper.season, self._holder, keeper.today, keeper.now)
        if before is None:
            self.closed.emit()
            return
        self._show_fields(before)
        self._list(before)
        try:
            proposal = self._proposal()
        except RefusedError as error:
            self.foresee([str(error)], sound=False)
            return
        found = preview(keeper.season, self._holder, proposal, keeper.today, keeper.now)
        self.foresee(list(found.lines), sound=True, why=ready_why(found.after))

    def _assemble(self) -> None:
        fields = form()
        self._start_line = left(self.start, self.light)
        self._moved_line = left(self.moved_at, self.moved_to)
        fields.addRow(tr("Went &out at"), self._start_line)
        fields.addRow(self.moved, self._moved_line)
        fields.addRow(tr("&Came in at"), left(self.end, self.still_out))
        for field, words in (
            (self.start, tr("Went out at")),
            (self.moved_at, tr("Moved at")),
            (self.end, tr("Came in at")),
        ):
            field.setAccessibleName(words)
        self._fields = fields
        self.body.addWidget(self.about)
        self.body.addLayout(fields)
        self.after.addWidget(label(tr("Written down lately"), "strong"))
        self.after.addLayout(self.latest)
        self.off_ramp = button(tr("Sto&p hardening it"), self._stop, "link", name="stop-hardening")
        self.after.addLayout(row(self.off_ramp, None))

    def _show_fields(self, stand: TwoClocks) -> None:
        place = self._bench.keeper.place
        if stand.outing is not None:
            since = moment_words(stand.outing.start, place)
            self.about.setText(
                tr("It went out at {since}. Give the time it came in, if that is past already.", since=since)
            )
        else:
            self.about.setText(
                tr("Times are the place's own; an outing past midnight counts for both its days.")
            )
        whole, still_out = not self._end_only, self.still_out.isChecked()
        self._fields.setRowVisible(self._start_line, whole)
        self._fields.setRowVisible(self._moved_line, whole and not still_out)
        self.still_out.setVisible(whole)
        self.end.setEnabled(not (whole and still_out))
        self.moved_at.setEnabled(self.moved.isChecked())
        self.moved_to.setText(tr("into shade") if self.light.currentData() == "sun" else tr("into the sun"))

    def _proposal(self) -> Proposal:
        keeper = self._bench.keeper
        season, place, now = keeper.season, keeper.place, keeper.now
        if self._end_only:
            return come_in(season, self._holder, self.end.moment(place), now=now)
        start, light = self.start.moment(place), self.light.currentData()
        if self.still_out.isChecked():
            return go_out(season, self._holder, start, light, now=now)
        times = [(start, light)]
        if self.moved.isChecked():
            times.append((self.moved_at.moment(place), "shade" if light == "sun" else "sun"))
        return enter_outing(season, self._holder, times, self.end.moment(place), now)

    def _stop(self) -> None:
        keeper = self._bench.keeper
        if keeper.do(lambda: stop_hardening(keeper.season, self._holder)):
            self.closed.emit()

    def _list(self, stand: TwoClocks) -> None:
        """List the latest outings and signs, each to be struck out."""
        place, season = self._bench.keeper.place, self._bench.keeper.season
        found = [
            _Written(_outing_words(one, place), partial(strike_outing, season, self._holder, one.key))
            for one in stand.outings[-LATEST:]
        ]
        found += [self._sign(seen) for seen in stand.setbacks[-LATEST:]]
        found.reverse()
        listed = [self._holder, *(one.words for one in found)]
        if listed == self._listed:
            return  # it is left as it is, and with it the focus
        self._listed = listed
        while (item := self.latest.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for line, one in enumerate(found):
            self._add_line(line, one)
        if not found:
            self.latest.addWidget(label(tr("nothing yet"), "quiet"), 0, 0)

    def _sign(self, seen: SetbackSeen) -> _Written:
        """Return a setback with its cause; on a second thought it was thirst, or the sun."""
        keeper = self._bench.keeper
        words = f"{SETBACK_WORDS[seen.what]} {FROM_A_CAUSE[seen.cause]}"
        other = "sun" if seen.cause == "thirst" else "thirst"
        it_was = {"sun": tr("It was the sun"), "thirst": tr("It was thirst")}
        return _Written(
            tr("{sign}, seen at {moment}", sign=words, moment=moment_words(seen.at, keeper.place)),
            partial(strike_sign, keeper.season, self._holder, seen.id),
            it_was[other],
            partial(cause_again, keeper.season, self._holder, seen.id, other),
        )

    def _add_line(self, line: int, written: _Written) -> None:
        strike = button(tr("Strike out"), lambda: self._strike(written.strike), "link", name=f"strike-{line}")
        strike.setAccessibleName(tr("Strike out {entry}", entry=written.words))
        self.latest.addWidget(label(written.words), line, 0)
        self.latest.addWidget(strike, line, 1)
        if written.other is not None:
            again = written.other
            change = button(written.other_words, lambda: self._strike(again), "link", name=f"cause-{line}")
            change.setAccessibleName(
                tr("{it_was} after all: {sign}", it_was=written.other_words, sign=written.words)
            )
            self.latest.addWidget(change, line, 2)
        self.latest.setColumnStretch(3, 1)

    def _strike(self, act: Callable[[], Proposal]) -> None:
        if self._bench.keeper.do(act):
            self._end_only = outing_of(self._bench.keeper.season, self._holder) is not None
            self.refresh()


def _outing_words(outing: Outing, place: Place) -> str:
    day = day_words(place.local(outing.start).date())
    stretches = [LIGHT_WORDS[stretch.light] for stretch in outing.stretches]
    lights = reduce(lambda first, then: tr("{first} then {next}", first=first, next=then), stretches)
    until = time_words(outing.end, place) if outing.end else tr("now")
    return tr(
        "{day}, {time} to {until}: {lights}",
        day=day,
        time=time_words(outing.start, place),
        until=until,
        lights=lights,
    )


def _lights(name: str) -> QComboBox:
    made = QComboBox()
    made.setObjectName(name)
    made.setAccessibleName(tr("light it went out into"))
    for key, words in LIGHTS:
        made.addItem(words, key)
    return made
