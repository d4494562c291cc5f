"""The story of the chosen packet: its seed, its tests, and what became of all that was sown of it."""

from __future__ import annotations

from greenroom.desk.bench import Bench
from greenroom.desk.parts import column
from greenroom.desk.story.panel import StoryPanel
from greenroom.desk.tabs import Part

LEAST_PX = 380


class StoryPart(Part):
    """The story panel, told of a packet."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.key: str | None = None
        self.panel = StoryPanel(bench, lambda: bench.keeper.today)
        self.panel.be_part()
        self.panel.setMinimumHeight(LEAST_PX)
        layout = column(self.panel)
        self.setLayout(layout)

    def show_packet(self, key: str | None) -> None:
        """Show the story of another packet."""
        self.key = key
        self.panel.open_packet(key)

    def refresh(self) -> None:
        self.panel.open_packet(self.key)

    def closing(self) -> None:
        self.panel.closing()
