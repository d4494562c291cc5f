"""Beds to be covered tonight, in one click, on whatever page the cold is told."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame, QSizePolicy, QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, button, label, restyle, row
from greenroom.ledger.facts import Covered
from greenroom.season.covering import Cover, cover_beds, cover_tonight, covered_tonight, covers_off
from greenroom.season.hardening_words import moment_words
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Touched
from greenroom.speech import tr, trn

SHOWN_NAMES = 2


class CoverBar(QFrame):
    """Hidden while nothing wants a cover; once covered it says so."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._wanted: Cover | None = None
        self.setObjectName("cover-bar")
        self.setProperty("role", "notice")
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self.words = label("", "strong", wrap=True)
        self.reason = label("", "quiet", wrap=True)
        self.button = button(tr("Covered"), self._cover, "urgent", name="cover-tonight")
        self.why = WhyLink(bench, lambda: self._wanted.why if self._wanted is not None else None)
        self.why.setAccessibleName(tr("why they are to be covered"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(GAP, GAP - 2, GAP, GAP - 2)
        layout.setSpacing(2)
        layout.addWidget(self.words)
        layout.addWidget(self.reason)
        layout.addLayout(row(self.button, None, self.why))
        self.hide()
        bench.keeper.changed.connect(self._take)

    def refresh(self) -> None:
        """Show what is to be covered tonight, or what is covered."""
        keeper = self._bench.keeper
        self._wanted = wanted = cover_tonight(keeper.season, keeper.today, keeper.now)
        for part in (self.button, self.why):
            part.setVisible(wanted is not None)
        if wanted is not None:
            place = keeper.place
            restyle(self, "role", "notice")
            self.words.setText(tr("Cover tonight: {names}", names=_names([bed.name for bed in wanted.beds])))
            self.reason.setText(
                trn(
                    "{low}; {n:,} plant out; {until}",
                    "{low}; {n:,} plants out; {until}",
                    wanted.plants,
                    low=wanted.low_words(place),
                    until=wanted.until_words(place),
                )
            )
            self.button.setAccessibleName(tr("covered: {words}", words=self.words.text()))
        else:
            self._show_covered()
        self.setVisible(bool(self.words.text()))

    def _take(self, touched: Touched) -> None:
        """Follow what is covered, by whatever page; the weather of the night is its page's to follow."""
        if Covered.kind in touched.kinds:
            self.refresh()

    def _show_covered(self) -> None:
        """Say what is covered tonight already, if anything is."""
        keeper = self._bench.keeper
        keys = covered_tonight(keeper.season, keeper.today, keeper.now)
        names = [bed.name for bed in keeper.season.holders("bed") if bed.key in keys]
        self.words.setText(tr("Covered tonight: {names}", names=_names(names)) if names else "")
        off = covers_off(keeper.season, keeper.today, keeper.now)
        self.reason.setText(
            tr("Covers off in the morning, once it is warm again.")
            if off is None
            else tr("Covers off at {moment}.", moment=moment_words(off, keeper.place))
        )
        restyle(self, "role", "hint")

    def _cover(self) -> None:
        self._bench.keeper.do(self._proposal)

    def _proposal(self) -> Proposal:
        keeper = self._bench.keeper
        wanted = cover_tonight(keeper.season, keeper.today, keeper.now)
        if wanted is None:
            raise RefusedError(tr("Nothing is left to be covered tonight."))
        return cover_beds(keeper.season, wanted, keeper.today)


def _names(names: list[str]) -> str:
    more = len(names) - SHOWN_NAMES
    shown = ", ".join(names[:SHOWN_NAMES])
    return shown if more <= 0 else tr("{names} and {n} more", names=shown, n=more)
