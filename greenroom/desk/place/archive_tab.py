"""The whole ledger in one file: saved, and brought in again."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import column
from greenroom.desk.place.archive_in import ArchiveIn
from greenroom.desk.place.archive_out import archive_out
from greenroom.desk.place.sharing_tab import how_to_share
from greenroom.desk.tabs import Part


class ArchiveTab(Part):
    """Both cards."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.out = archive_out(bench)
        self.coming = ArchiveIn(bench)
        cards: list[QWidget] = [self.out, self.coming]
        if bench.keeper.live is None:
            cards.append(how_to_share())
        layout = column(*cards, None, gap=GAP + 4)
        layout.setContentsMargins(0, 0, 0, 0)
        self.setLayout(layout)

    def closing(self) -> None:
        self.out.stop()
        self.coming.closing()
