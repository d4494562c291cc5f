"""The head of the window: the name, the season ribbon, and the ways to the round and the place."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QStackedLayout, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.paper.code_field import CodeField
from greenroom.desk.parts import button, label, row
from greenroom.desk.ribbon_view import RibbonView
from greenroom.desk.round_count import RoundCount
from greenroom.season.place import weather_days
from greenroom.season.ribbon import ribbon, ribbon_year
from greenroom.season.temperatures import temperature
from greenroom.speech import tr, trn


class TopBar(QWidget):
    """Stands over every page."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.setObjectName("top-bar")
        self._bench = bench
        self.name = label("greenroom", "page-title")
        self.season = label("", "quiet")
        self.code = CodeField(bench)
        self.find_code = button(tr("Find"), self.code.take_focus, "link", name="find")
        self.find_code.setToolTip(tr("Scan the code of a tag, or type a tray and a cell (Ctrl+F)"))
        self.find_code.setAccessibleName(tr("find by the code of a tag, or by tray and cell"))
        self.ribbon = RibbonView(bench.look)
        self.ribbon.chosen.connect(lambda key: bench.show_page(key))
        self.round: QPushButton = button(tr("The round"), lambda: bench.show_page("round"), name="go-round")
        self.round.setCheckable(True)
        self.count = RoundCount(bench.keeper, self)
        self.count.counted.connect(self._show_count)
        self.place: QPushButton = button(tr("The place"), lambda: bench.show_page("place"), name="go-place")
        self.place.setCheckable(True)
        self.weather = label("", "quiet")
        self.weather.setAlignment(Qt.AlignmentFlag.AlignRight)
        self._lay_out()

    def refresh(self, *, brief: bool = False) -> None:
        """Show the season as it stands; ``brief`` leaves open what takes a while to work out."""
        keeper = self._bench.keeper
        today = keeper.today
        self.season.setText(tr("Season {year}", year=ribbon_year(keeper.season, today)))
        self.ribbon.show_season(ribbon(keeper.season, today, keeper.now, brief=brief), today)
        self.weather.setText(self._weather_words(today))
        if not brief:
            self.count.start()

    def set_current(self, key: str) -> None:
        """Show which page is in front."""
        self.ribbon.set_current(key)
        self.place.setChecked(key == "place")
        self.round.setChecked(key == "round")

    def focus(self, key: str) -> None:
        """Put the keyboard on the way to a page, so that Tab goes on from there."""
        self.ribbon.focus(key)

    def stop(self) -> None:
        """Leave nothing running behind."""
        self.count.stop()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.code.watch()

    def _show_count(self, number: int) -> None:
        """Show how many things are still to do."""
        self.round.setText(tr("The round · {n}", n=number) if number else tr("The round"))
        self.round.setAccessibleName(
            trn("The round, {n:,} thing to do", "The round, {n:,} things to do", number)
        )

    def _weather_words(self, today: date) -> str:
        keeper = self._bench.keeper
        place = keeper.place
        if not place.known:
            return tr("no place set yet")
        known = weather_days(keeper.season).get(today)
        words = [place.name]
        if known is not None and known.tmin_c is not None and known.tmax_c is not None:
            low, high = (temperature(value, place.temperature) for value in (known.tmin_c, known.tmax_c))
            words.append(tr("{low} to {high}", low=low, high=high))
        return " · ".join(words)

    def _lay_out(self) -> None:
        layout = QHBoxLayout(self)
        layout.setContentsMargins(PAGE_MARGIN, 0, PAGE_MARGIN, 0)
        layout.setSpacing(2 * GAP)
        left, right = QVBoxLayout(), QVBoxLayout()
        doors = QWidget()
        doors.setLayout(row(self.round, self.place))
        for side, parts in ((left, (self.name, self._season_or_code())), (right, (doors, self.weather))):
            side.setContentsMargins(0, GAP + 2, 0, 0)
            side.setSpacing(1 if side is left else GAP // 2)
            for part in parts:
                side.addWidget(part)
            side.addStretch(1)
        layout.addLayout(left)
        layout.addWidget(self.ribbon, 1)
        layout.addLayout(right)
        QWidget.setTabOrder(self.place, self.find_code)

    def _season_or_code(self) -> QWidget:
        """The season, in whose place the field for a code stands while one is awaited."""
        season, both = QWidget(), QWidget()
        season.setLayout(row(self.season, self.find_code, None, gap=GAP // 2))
        stack = QStackedLayout(both)
        stack.addWidget(season)
        stack.addWidget(self.code)
        self.code.wanted.connect(lambda: stack.setCurrentWidget(self.code))
        self.code.done.connect(lambda: stack.setCurrentWidget(season))
        return both
