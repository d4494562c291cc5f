"""The sheet of one sign: its questions, those the record answers filled in, and its causes ranked."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.care.look_over_causes import CauseList
from greenroom.desk.care.look_over_sheet import Sheet, SprayHint
from greenroom.desk.care.part import Day
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, button, label, row, show_words
from greenroom.guide.troubles import Question, Sign, Troubles
from greenroom.ledger.facts import Finding
from greenroom.season.proposal import Proposal, together
from greenroom.season.spots import SpotKey
from greenroom.season.troubles import FIRST_OF_ALL, Known, Ranking, next_question, rank
from greenroom.season.troubles_found import put_down_to
from greenroom.season.troubles_known import known_answers
from greenroom.season.troubles_why import ranking_why
from greenroom.season.why import Why
from greenroom.speech import tr

NOT_ANSWERED = tr("not answered")
ASK_SHARE = 4, 5  # of the width, for a question and for its answer


class QuestionRow(QWidget):
    """One question, its answers to choose from, and where an answer filled in comes from."""

    def __init__(self, question: Question, text: Callable[[str], str], act: Callable[[], None]) -> None:
        super().__init__()
        self.by_grower = False
        self.ask = label(text(question.ask), "strong", wrap=True)
        self.choice = QComboBox()
        self.choice.setAccessibleName(text(question.ask))
        self.choice.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.choice.addItem(NOT_ANSWERED, None)
        for key, words in question.answers.items():
            self.choice.addItem(text(words), key)
        self.note = label("", "quiet", wrap=True)
        self.choice.activated.connect(partial(self._chosen, act))
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(2 * GAP)
        grid.setVerticalSpacing(2)
        for place, share in enumerate(ASK_SHARE):
            grid.setColumnStretch(place, share)
        grid.addWidget(self.ask, 0, 0)
        grid.addWidget(self.choice, 0, 1)
        grid.addWidget(self.note, 1, 1)

    @property
    def answer(self) -> str | None:
        """The key of the answer, None while there is none."""
        found = self.choice.currentData()
        return found if isinstance(found, str) else None

    def show_known(self, known: Known | None) -> None:
        """Fill in what the record answers, unless the grower has answered."""
        if not self.by_grower:
            self.choice.setCurrentIndex(0 if known is None else self.choice.findData(known.answer))
        same = known is not None and known.answer == self.answer
        self._say(tr("From your record: {words}", words=known.words) if known is not None and same else "")

    def show_best(self, *, best: bool) -> None:
        """Say whether it is the question that tells most now."""
        if best and not self.note.text():
            self._say(tr("This one tells most."))

    def _say(self, words: str) -> None:
        show_words(self.note, words)

    def _chosen(self, act: Callable[[], None], _place: int) -> None:
        self.by_grower = True
        act()


class SignSheet(Sheet):
    """Asks, ranks, and writes down the sign and what it was put down to."""

    def __init__(
        self, bench: Bench, day: Day, spot: Callable[[], SpotKey | None], troubles: Troubles
    ) -> None:
        super().__init__(bench, day, spot)
        self._sign: Sign | None = None
        self._ranking: Ranking | None = None
        self._known: dict[str, Known] = {}
        self.questions: dict[str, QuestionRow] = {}
        self.found = button(tr("&Seen here: note it"), self._find, "primary", name="sign-found")
        self._asked = QVBoxLayout()
        self._asked.setSpacing(GAP)
        self.verdict = label("", "title", wrap=True)
        self.why = WhyLink(bench, self._why)
        self.why.setAccessibleName(tr("why the causes stand in this order"))
        self.causes = CauseList(bench)
        self.causes.settled.connect(self._settle)
        self.noting.addWidget(self.found)
        self.body.addLayout(self._asked)
        told = row(gap=GAP)
        told.addWidget(self.verdict, 1)
        told.addWidget(self.why, 0, Qt.AlignmentFlag.AlignTop)
        self.body.addLayout(told)
        self.body.addWidget(self.causes)
        self.body.addWidget(SprayHint(bench, troubles))
        self.body.addStretch(1)

    def show_sign(self, holder: str, sign: Sign) -> None:
        """Show a sign; what the grower answered is kept while it stays the same."""
        keeper = self.bench.keeper
        if (holder, sign) != (self.holder, self._sign):
            self.where.clear()
            self._build(sign)
        self.holder, self._sign = holder, sign
        self.drawing.show_picture(sign.picture, sign.name)
        self.name.setText(sign.name)
        self.seen.setText(self.text(sign.seen))
        self.found.setAccessibleName(tr("Note it: {name}", name=sign.name))
        self._known = known_answers(keeper.season, holder, sign, self.day())
        self._rank()

    def _build(self, sign: Sign) -> None:
        for made in self.questions.values():
            self._asked.removeWidget(made)
            made.hide()
            made.deleteLater()
        self.questions = {one.key: QuestionRow(one, self.text, self._rank) for one in sign.questions}
        for made in self.questions.values():
            self._asked.addWidget(made)

    def _rank(self) -> None:
        if self._sign is None:
            return
        for key, made in self.questions.items():
            made.show_known(self._known.get(key))
        answers = {key: made.answer for key, made in self.questions.items()}
        ranking = rank(self._sign, {key: one for key, one in answers.items() if one is not None})
        self._ranking = ranking
        best = next_question(ranking)
        for key, made in self.questions.items():
            made.show_best(best=best is not None and best.key == key)
        first = ranking.first
        cause = first.cause.name
        likely = first.share >= FIRST_OF_ALL
        self.verdict.setText(
            tr("Likely: {cause}", cause=cause) if likely else tr("First to check: {cause}", cause=cause)
        )
        self.causes.show_ranking(ranking)

    def _why(self) -> Why | None:
        if self._ranking is None:
            return None
        return ranking_why(self._ranking, self._known, self.bench.keeper.place)

    def _find(self) -> None:
        sign = self._sign
        if sign is not None and self.bench.keeper.do(lambda: self.note(sign.key)):
            self.where.clear()

    def _settle(self, cause: str) -> None:
        self.bench.keeper.do(lambda: self._settled(cause))

    def _settled(self, cause: str) -> Proposal:
        """Return the note of a cause, with the finding of its sign unless that was noted on the day."""
        season, spot, day = self.bench.keeper.season, self.spot(), self.day()
        key = self._sign.key if self._sign is not None else ""
        settled = put_down_to(season, self.holder, day, key, cause, spot)
        if self._noted(key):
            return settled
        return together(settled.name, (self.note(key), settled))

    def _noted(self, key: str) -> bool:
        spot, day = self.spot(), self.day()
        at = (spot.row, spot.column) if spot is not None else (None, None)
        return any(
            (fact.day, fact.holder, fact.sign, fact.row, fact.column) == (day, self.holder, key, *at)
            for fact in self.bench.keeper.season.facts(Finding)
        )
