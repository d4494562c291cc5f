"""The fields beside the table: a new packet, or the chosen one, corrected where it stands."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Signal

from greenroom.desk.bench import Bench
from greenroom.desk.flow import Flow
from greenroom.desk.parts import WhyLink, button, column, label, row, show_words
from greenroom.desk.seed.crop_words import keeping_why, past_keeping
from greenroom.desk.seed.form_values import UnfitError
from greenroom.desk.seed.packet_form import PacketForm
from greenroom.desk.seed.packet_rows import age_of
from greenroom.desk.tabs import Part
from greenroom.season.deeds_shelf import add_packets, correct_packet, remove_packet
from greenroom.season.packets import PacketView, SeedEntry, already_there, packet_view, packets, varieties
from greenroom.season.why import Why
from greenroom.speech import tr, trn


class PacketCard(Part):
    """Adds a packet, or shows one: a field of it that is changed and left is corrected at once."""

    added = Signal(str)
    shows = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._key: str | None = None
        self.form = PacketForm(bench.guide)
        self.hint = label("", "quiet", wrap=True)
        self.why = WhyLink(bench, self._keeping, tr("why old?"))
        self.add = button(tr("Add to the seed box"), self.add_packet, "primary", name="add-packet")
        self.strike = button(tr("Strike out"), self.strike_out, name="strike-packet")
        self.another = button(tr("Add another packet"), self.begin, name="new-packet")
        layout = column(self.form, self.hint)
        layout.addLayout(row(self.why, None))
        layout.addWidget(Flow(self.add, self.another, self.strike))
        layout.addStretch(1)
        self.setLayout(layout)
        self.form.edited.connect(self._on_edited)
        self.form.typed.connect(self._show_hint)
        self.form.known_chosen.connect(self._take_over)
        self.begin()

    @property
    def key(self) -> str | None:
        """The packet shown, or None while a new one is entered."""
        return self._key

    def begin(self) -> None:
        """Start entering a new packet."""
        self._show(None, SeedEntry(""))
        self.form.focus_first()

    def show_packet(self, key: str | None) -> None:
        """Show a packet to be corrected; None, or one that is gone, leaves an empty form."""
        view = packet_view(self._bench.keeper.season, key) if key else None
        if view is None and self._key is None:
            return
        self._show(view.key if view else None, view.entry if view else SeedEntry(""))

    def refresh(self) -> None:
        """Show the packet as it stands now; what is being entered anew stays."""
        self.form.offer_names(fact.name for fact in varieties(self._bench.keeper.season).values())
        if self._key is not None:
            self.show_packet(self._key)
        self._show_hint()

    def add_packet(self) -> bool:
        """Add what is entered; True if it was written."""
        keeper = self._bench.keeper
        entry = self._read()
        if entry is None:
            return False
        before = {view.key for view in packets(keeper.season)}
        if not keeper.do(lambda: add_packets(keeper.season, [entry], keeper.today)):
            return False
        new = next(view.key for view in packets(keeper.season) if view.key not in before)
        self.begin()
        self.added.emit(new)
        return True

    def strike_out(self) -> None:
        """Strike the shown packet out."""
        keeper, key = self._bench.keeper, self._key
        if key is not None:
            keeper.do(lambda: remove_packet(keeper.season, key))

    def commit(self) -> None:
        """Write what is being edited: a correction, or a new packet that has a name and is not in the box."""
        if self._key is not None:
            self._on_edited()
            self.refresh()
            return
        if self.form.name() and not self._twin():
            self.add_packet()

    def _show(self, key: str | None, entry: SeedEntry) -> None:
        self._key = key
        self.form.show_entry(entry)
        self.add.setVisible(key is None)
        self.another.setVisible(key is not None)
        self.strike.setVisible(key is not None)
        self._show_hint()
        self.shows.emit()

    def _on_edited(self) -> None:
        key, keeper = self._key, self._bench.keeper
        if key is None or not self.form.changed:
            return
        entry = self._read()
        if entry is None:
            return
        if not keeper.do(lambda: correct_packet(keeper.season, key, entry)):
            self.show_packet(key)

    def _read(self) -> SeedEntry | None:
        try:
            return self.form.entry()
        except UnfitError as error:
            self._bench.say(str(error))
            return None

    def _twin(self) -> bool:
        entry = self.form.try_entry()
        return entry is not None and bool(entry.name) and already_there(self._bench.keeper.season, [entry])[0]

    def _show_hint(self) -> None:
        view = self._view()
        words = self._known_words(view) if view else self._new_words()
        show_words(self.hint, words)
        self.why.setVisible(view is not None and past_keeping(self._bench.guide, view.crop, self._age(view)))

    def _new_words(self) -> str:
        if not self._twin():
            return ""
        return tr("{variety} of this lot or year is in the seed box already.", variety=self.form.name())

    def _known_words(self, view: PacketView) -> str:
        sown = trn("1 seed of it is sown.", "{n:,} seeds of it are sown.", view.used)
        words = [sown if view.used else tr("None of it is sown yet.")]
        if view.left is not None:
            words.append(trn("1 is left.", "{n:,} are left.", view.left))
        if past_keeping(self._bench.guide, view.crop, self._age(view)):
            words.append(
                trn(
                    "The seed is 1 year old, past the years it usually keeps.",
                    "The seed is {n} years old, past the years it usually keeps.",
                    self._age(view) or 0,
                )
            )
        return " ".join(words)

    def _keeping(self) -> Why | None:
        view = self._view()
        age = self._age(view) if view else None
        return keeping_why(self._bench.guide, view.crop, age) if view and age is not None else None

    def _view(self) -> PacketView | None:
        return packet_view(self._bench.keeper.season, self._key) if self._key else None

    def _age(self, view: PacketView) -> int | None:
        today: date = self._bench.keeper.today
        return age_of(view.packet.packed, today)

    def _take_over(self, name: str) -> None:
        """Fill in what is known of a variety whose name was chosen from the list."""
        if self._key is not None:
            return
        known = [fact for fact in varieties(self._bench.keeper.season).values() if fact.name == name]
        if not known:
            return
        if not self.form.crop.currentText():
            self.form.crop.show_crop(known[0].crop)
        self.form.offer_days(known[0].days_to_ripe)
        self._show_hint()
