"""The germination tests of the chosen packet, the latest first, and a new one."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import label
from greenroom.desk.seed.begin_test import BeginTest
from greenroom.desk.seed.home_test_block import HomeTestBlock
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.desk.tabs import Part
from greenroom.season.home_tests import home_tests_of
from greenroom.speech import tr

NONE_YET = tr(
    "No test of this packet yet. Ten seeds or more on moist paper tell whether it is "
    "worth a tray, a few weeks before it is sown."
)


class HomeTestsPart(Part):
    """Blocks of tests, kept while their test is there, so that what has the focus keeps it."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self.key: str | None = None
        self.empty = label(NONE_YET, "quiet", wrap=True)
        self.new = BeginTest(bench)
        self.blocks: dict[str, HomeTestBlock] = {}
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(GAP * 2)
        self._layout.addWidget(self.empty)
        self._layout.addWidget(self.new)
        self._layout.addWidget(TableButton(bench, sources.home_tests, text=tr("All tests as a table")))
        self._layout.addStretch(1)
        self.new.begun.connect(self._on_begun)

    def show_packet(self, key: str | None) -> None:
        """Take up another packet; what was typed for the one before is written first."""
        self.commit()
        self.key = key
        self.new.show_packet(key)

    def commit(self) -> None:
        """Write what is being edited."""
        for block in list(self.blocks.values()):
            block.commit()

    def refresh(self) -> None:
        tests = home_tests_of(self._bench.keeper.season, self.key) if self.key else []
        for key in self.blocks.keys() - {test.key for test in tests}:
            gone = self.blocks.pop(key)
            self._layout.removeWidget(gone)
            gone.hide()
            gone.deleteLater()
        for test in tests:
            block = self.blocks.get(test.key)
            if block is None:
                block = self.blocks[test.key] = HomeTestBlock(self._bench, test)
                self._layout.insertWidget(1, block)
                block.show_days(shown=test is tests[-1] or not test.over)
            block.show_test(test)
        self.empty.setVisible(not tests)
        self.new.refresh()

    def _on_begun(self, key: str) -> None:
        self.refresh()
        self.blocks[key].days.setFocus()
