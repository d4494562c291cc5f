"""Drooping, wilted, leaf scorch: what it looks like, what to do now, and what it does to the plan."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from types import MappingProxyType

from PySide6.QtWidgets import QButtonGroup, QComboBox, QPushButton

from greenroom.agronomy.hardening import Setback
from greenroom.desk.bench import Bench
from greenroom.desk.harden.inline_panel import InlinePanel, form, left
from greenroom.desk.harden.moment_field import MomentField
from greenroom.desk.harden.sign_picture import SignPicture
from greenroom.desk.parts import WhyLink, label, row
from greenroom.season.deeds_harden import IN, STAY, outing_of
from greenroom.season.deeds_outdoors import setback_from
from greenroom.season.hardening_why import ready_why
from greenroom.season.hardening_words import SETBACK_CAUSES, SETBACK_WORDS, day_words, gust_words
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.setback_cause import Suspicion, suspect, suspicion_why, watered_on
from greenroom.season.setback_preview import preview
from greenroom.season.why import Why
from greenroom.season.within import opening
from greenroom.speech import tr


@dataclass(frozen=True, slots=True)
class Sign:
    """One kind of setback in words; ``then`` is what is proposed to do at once."""

    title: str
    looks: str
    now: str
    then: str


SIGNS: Mapping[str, Sign] = MappingProxyType(
    {
        "droop": Sign(
            SETBACK_WORDS["droop"],
            tr("Leaves hang but are green and soft, and the stems still stand."),
            tr(
                "Feel the mix. If it is dry, water, and look again in half an hour: plants that "
                "stand up again were thirsty, and this need not be noted. If it is moist, do not "
                "water: move them into shade, out of the wind."
            ),
            "shade",
        ),
        "wilt": Sign(
            SETBACK_WORDS["wilt"],
            tr(
                "Leaves and tips are limp, stems bend, and shade alone does not bring them back "
                "within the hour."
            ),
            tr(
                "Bring them in, out of sun and wind. Water only if the mix is dry: roots that stand "
                "in wet mix wilt, too."
            ),
            IN,
        ),
        "scorch": Sign(
            SETBACK_WORDS["scorch"],
            tr("Pale, papery or tan patches where the sun fell, with green beside them. They do not heal."),
            tr(
                "Bring them in. Leave the leaves on; the next ones come hardened. Tomorrow is a day "
                "of rest. Patches with edges like drops, after a spray, may be spray burn instead."
            ),
            IN,
        ),
    }
)
KINDS: tuple[Setback, ...] = ("droop", "wilt", "scorch")
ADVICE = tr(
    "Signs as University of Maryland and Iowa State University extension writers "
    "describe them; your local extension service knows your conditions better."
)
THEN = ((IN, tr("bring it in")), ("shade", tr("move it into shade")), (STAY, tr("leave it as it is")))


CAUSE_NAMES = {"sun": tr("Sun", sense="a cause"), "wind": tr("Wind"), "thirst": tr("Thirst")}
DAYS_AGO = (
    (0, tr("That day")),
    (1, tr("The day before")),
    (2, tr("Two days before")),
    (3, tr("Three days before")),
)
WRITTEN = -1


class SetbackPanel(InlinePanel):
    """Asks what brought it on, and shows what confirming would do before it is confirmed.

    The cause that the answers speak for is chosen until the grower chooses one.
    """

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench, tr("&Confirm"), self._proposal)
        self._bench = bench
        self._holder = ""
        self._what = "droop"
        self._own_choice = False
        self._suspicion: Suspicion | None = None
        self.looks = label("", wrap=True)
        self.advice = label("", wrap=True)
        self.seen = MomentField("seen-at")
        self.picture = SignPicture(bench.look)
        self.watered = _choice("last-watered", tr("Last watered"))
        self.wind = _choice("wind", tr("Wind"))
        self.likely = label("", wrap=True)
        self.likely_why = WhyLink(bench, self._why_likely)
        self.likely_why.setAccessibleName(tr("why this cause"))
        self.causes = {cause: _cause_button(cause) for cause in SETBACK_CAUSES}
        self._group = QButtonGroup(self)
        self.then = _choice("then", tr("Then"))
        self._assemble()
        self.seen.dateTimeChanged.connect(lambda _: self.refresh())
        for field in (self.watered, self.wind, self.then):
            field.currentIndexChanged.connect(lambda _: self.refresh())

    @property
    def cause(self) -> str:
        """The cause that is chosen."""
        return next((one for one, made in self.causes.items() if made.isChecked()), "sun")

    def open_for(self, holder: str, what: str) -> None:
        """Ask about a setback of a holder, seen now."""
        keeper = self._bench.keeper
        self._holder, self._what, self._own_choice = holder, what, False
        sign = SIGNS[what]
        self.heading.setText(tr("{sign}?", sign=opening(sign.title)))
        self.looks.setText(sign.looks)
        self.picture.show_sign(what)
        self.confirm.setText(tr("&Confirm {sign}", sign=sign.title))
        self.seen.set_moment(keeper.now, keeper.place)
        self._ask()
        self._offer(sign.then)
        self.refresh()
        self.seen.setFocus()

    def refresh(self) -> None:
        """Work out anew what most likely brought it on, and what confirming would do."""
        keeper = self._bench.keeper
        try:
            self._suppose()
            proposal = self._proposal()
        except RefusedError as error:
            self.foresee([str(error)], sound=False)
            return
        found = preview(keeper.season, self._holder, proposal, keeper.today, keeper.now, cause=self.cause)
        self.foresee(list(found.lines), sound=True, why=ready_why(found.after))

    def _assemble(self) -> None:
        fields = form()
        shown = row(self.looks, self.picture)
        shown.setStretch(0, 1)
        fields.addRow(label(tr("Looks like"), "strong"), shown)
        fields.addRow(tr("&Seen at"), left(self.seen))
        fields.addRow(tr("Last &watered"), left(self.watered))
        fields.addRow(tr("Win&d"), left(self.wind))
        fields.addRow(label(tr("Most likely"), "strong"), self.likely)
        fields.addRow(tr("Brought on by"), left(*self.causes.values(), self.likely_why))
        fields.addRow(label(tr("Do now"), "strong"), self.advice)
        fields.addRow(tr("&Then"), left(self.then))
        self.seen.setAccessibleName(tr("Seen at"))
        for made in self.causes.values():
            self._group.addButton(made)
            made.clicked.connect(lambda _checked: self._choose())
        self.body.addLayout(fields)
        self.body.addWidget(label(tr("What it does to the plan"), "strong"))
        self.after.addWidget(label(ADVICE, "quiet", wrap=True))

    def _ask(self) -> None:
        """Put the questions, each with what is known already as the first answer."""
        keeper = self._bench.keeper
        known = watered_on(keeper.season, self._holder, keeper.today)
        written = (
            tr("not written down") if known is None else tr("{day}, as written down", day=day_words(known))
        )
        answers = [(written, WRITTEN), *((words, days) for days, words in DAYS_AGO)]
        _fill(self.watered, answers)
        found = suspect(keeper.season, self._holder, "droop", keeper.now)
        gusts = gust_words(found.gust_ms, keeper.place)
        told = tr("not known") if found.gust_ms is None else tr("gusts {gusts}, as forecast", gusts=gusts)
        _fill(self.wind, [(told, None), (tr("Calm"), False), (tr("Windy"), True)])

    def _suppose(self) -> None:
        """Say what most likely brought it on, by the answers."""
        keeper = self._bench.keeper
        kind = next(one for one in KINDS if one == self._what)
        found = suspect(
            keeper.season,
            self._holder,
            kind,
            self.seen.moment(keeper.place),
            watered=self._watered(),
            windy=self.wind.currentData(),
        )
        self._suspicion = found
        self.likely.setText(f"{SETBACK_CAUSES[found.cause]}. {found.advice}")
        if not self._own_choice:
            self.causes[found.cause].setChecked(True)
        self.advice.setText(SIGNS[self._what].now)

    def _watered(self) -> date | None:
        days = self.watered.currentData()
        return None if days in (None, WRITTEN) else self.seen.day() - timedelta(days=days)

    def _choose(self) -> None:
        self._own_choice = True
        self.refresh()

    def _why_likely(self) -> Why | None:
        return suspicion_why(self._suspicion, self._bench.keeper.place) if self._suspicion else None

    def _offer(self, wanted: str) -> None:
        """Offer what can be done now: nothing while it is in, no shade while it stands there."""
        outing = outing_of(self._bench.keeper.season, self._holder)
        open_to = [STAY] if outing is None else [IN, STAY] if outing.light == "shade" else [IN, "shade", STAY]
        _fill(self.then, [(words, key) for key, words in THEN if key in open_to])
        self.then.setEnabled(len(open_to) > 1)
        self.then.setCurrentIndex(max(0, self.then.findData(wanted)))

    def _proposal(self) -> Proposal:
        keeper = self._bench.keeper
        return setback_from(
            keeper.season,
            self._holder,
            self._what,
            self.cause,
            self.seen.moment(keeper.place),
            then=self.then.currentData() or STAY,
            now=keeper.now,
        )


def _cause_button(cause: str) -> QPushButton:
    made = QPushButton(CAUSE_NAMES[cause])
    made.setObjectName(f"cause-{cause}")
    made.setCheckable(True)
    made.setAutoDefault(False)
    made.setAccessibleName(tr("Brought on by {cause}", cause=SETBACK_CAUSES[cause]))
    return made


def _choice(name: str, words: str) -> QComboBox:
    made = QComboBox()
    made.setObjectName(name)
    made.setAccessibleName(words)
    made.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
    return made


def _fill(field: QComboBox, answers: Sequence[tuple[str, object]]) -> None:
    """Offer answers anew, the first chosen, without telling anybody."""
    field.blockSignals(True)
    field.clear()
    for words, data in answers:
        field.addItem(words, data)
    field.blockSignals(False)
