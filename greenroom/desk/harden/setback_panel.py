"""Drooping, wilted, leaf scorch: what it looks like, what to do now, and what it does to the plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from PySide6.QtWidgets import QComboBox

from greenroom.agronomy.hardening import Setback
from greenroom.desk.bench import Bench
from greenroom.desk.harden.inline_panel import InlinePanel, form, left
from greenroom.desk.harden.moment_field import MomentField
from greenroom.desk.harden.sign_picture import SignPicture
from greenroom.desk.parts import WhyLink, label, row
from greenroom.season.deeds_harden import IN, STAY, setback
from greenroom.season.door import effect_words
from greenroom.season.hardening import standing, standing_if
from greenroom.season.hardening_why import ready_why
from greenroom.season.hardening_words import day_words
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.setback_cause import Suspicion, suspect, suspicion_why
from greenroom.season.why import Why


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
            "drooping",
            "Leaves hang but are green and soft, and the stems still stand.",
            "Feel the mix. If it is dry, water, and look again in half an hour: plants that stand up "
            "again were thirsty, and this need not be noted. If it is moist, do not water: move them "
            "into shade, out of the wind.",
            "shade",
        ),
        "wilt": Sign(
            "wilted",
            "Leaves and tips are limp, stems bend, and shade alone does not bring them back within the hour.",
            "Bring them in, out of sun and wind. Water only if the mix is dry: roots that stand in wet mix "
            "wilt, too.",
            IN,
        ),
        "scorch": Sign(
            "leaf scorch",
            "Pale, papery or tan patches where the sun fell, with green beside them. They do not heal.",
            "Bring them in. Leave the leaves on; the next ones come hardened. Tomorrow is a day of rest. "
            "Patches with edges like drops, after a spray, may be spray burn instead.",
            IN,
        ),
    }
)
KINDS: tuple[Setback, ...] = ("droop", "wilt", "scorch")
ADVICE = (
    "Signs as University of Maryland and Iowa State University extension writers describe them; "
    "your local extension service knows your conditions better."
)
THEN = ((IN, "bring it in"), ("shade", "move it into shade"), (STAY, "leave it as it is"))


class SetbackPanel(InlinePanel):
    """Shows what confirming would do before it is confirmed, worked out by the same rules."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench, "&Confirm", self._do)
        self._bench = bench
        self._holder = ""
        self._what = "droop"
        self.looks = label("", wrap=True)
        self.advice = label("", wrap=True)
        self.seen = MomentField("seen-at")
        self.then = QComboBox()
        self.then.setObjectName("then")
        self.then.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        fields = form()
        self.picture = SignPicture(bench.look)
        self.likely = label("", wrap=True)
        self.likely_why = WhyLink(bench, self._why_likely)
        self.likely_why.setAccessibleName("why this cause")
        self._suspicion: Suspicion | None = None
        shown = row(self.looks, self.picture)
        shown.setStretch(0, 1)
        fields.addRow(label("Looks like", "strong"), shown)
        fields.addRow(label("Most likely", "strong"), self.likely)
        fields.addRow("", left(self.likely_why))
        fields.addRow(label("Do now", "strong"), self.advice)
        fields.addRow("&Seen at", left(self.seen))
        fields.addRow("&Then", left(self.then))
        for field, words in ((self.seen, "Seen at"), (self.then, "Then")):
            field.setAccessibleName(words)
        self.body.addLayout(fields)
        self.body.addWidget(label("What it does to the plan", "strong"))
        self.after.addWidget(label(ADVICE, "quiet", wrap=True))
        self.seen.dateTimeChanged.connect(lambda _: self.refresh())
        self.then.currentIndexChanged.connect(lambda _: self.refresh())

    @property
    def what(self) -> str:
        """The kind of setback that is asked about."""
        return self._what

    def open_for(self, holder: str, what: str) -> None:
        """Ask about a setback of a holder, seen now."""
        keeper = self._bench.keeper
        self._holder, self._what = holder, what
        sign = SIGNS[what]
        self.heading.setText(f"{sign.title[0].upper()}{sign.title[1:]}?")
        self.looks.setText(sign.looks)
        self.picture.show_sign(what)
        self.advice.setText(sign.now)
        self.confirm.setText(f"&Confirm {sign.title}")
        self.seen.set_moment(keeper.now, keeper.place)
        self._offer(sign.then)
        self.refresh()
        self.seen.setFocus()

    def refresh(self) -> None:
        """Work out anew what confirming would do."""
        keeper = self._bench.keeper
        before = standing(keeper.season, self._holder, keeper.today, keeper.now)
        try:
            self._suppose()
            proposal = self._proposal()
        except RefusedError as error:
            self.foresee([str(error)], sound=False)
            return
        after = standing_if(keeper.season, self._holder, proposal, keeper.today, keeper.now)
        if before is not None and after is not None:
            self.foresee(effect_words(before, after, self.seen.day()), sound=True, why=ready_why(after))

    def _suppose(self) -> None:
        """Say what most likely brought it on, by when water was last given."""
        keeper = self._bench.keeper
        kind = next(one for one in KINDS if one == self._what)
        found = suspect(keeper.season, self._holder, kind, self.seen.moment(keeper.place))
        watered = "no watering written down" if found.watered is None else day_words(found.watered)
        cause = {"thirst": "thirst", "sun": "the sun", "wind": "the wind"}[found.cause]
        self._suspicion = found
        self.likely.setText(f"{cause}; last watered: {watered}. {found.advice}")

    def _why_likely(self) -> Why | None:
        return suspicion_why(self._suspicion, self._bench.keeper.place) if self._suspicion else None

    def _offer(self, wanted: str) -> None:
        """Offer what can be done now: nothing while it is in, no shade while it stands there."""
        keeper = self._bench.keeper
        stand = standing(keeper.season, self._holder, keeper.today, keeper.now)
        outing = stand.outing if stand else None
        open_to = [STAY] if outing is None else [IN, STAY] if outing.light == "shade" else [IN, "shade", STAY]
        self.then.clear()
        for key, words in THEN:
            if key in open_to:
                self.then.addItem(words, key)
        self.then.setEnabled(len(open_to) > 1)
        self.then.setCurrentIndex(max(0, self.then.findData(wanted)))

    def _proposal(self) -> Proposal:
        keeper = self._bench.keeper
        return setback(
            keeper.season,
            self._holder,
            self._what,
            self.seen.moment(keeper.place),
            then=self.then.currentData() or STAY,
            now=keeper.now,
        )

    def _do(self) -> bool:
        return self._bench.keeper.do(self._proposal)
