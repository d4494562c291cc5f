"""What is shown of a photograph of a tray: its corners, what was read, what the grower says of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from greenroom.desk.grow.photo_work import Loaded
from greenroom.exchange.tray_photo.cells import UNSURE, UP, Reading
from greenroom.exchange.tray_photo.homography import UNIT, Corners, homography, is_fit, mapped
from greenroom.exchange.tray_photo.photo import LEAST
from greenroom.ledger.facts import CellCover
from greenroom.season.spots import SpotKey, row_label
from greenroom.season.state import Season
from greenroom.speech import tr

Place = tuple[int, int]


class Mark(Enum):
    """What a cell of the photograph is taken for."""

    NEW = "new"
    KNOWN = "known"
    UNSURE = "unsure"
    UNSOWN = "unsown"
    UNSEEN = "unseen"
    BARE = "bare"


MARK_WORDS = {
    Mark.NEW: tr("up now"),
    Mark.KNOWN: tr("up already"),
    Mark.UNSURE: tr("unsure"),
    Mark.UNSOWN: tr("green, but never sown"),
    Mark.UNSEEN: tr("up already, no leaf seen"),
    Mark.BARE: tr("not up"),
}


@dataclass
class PhotoState:
    """A photograph being read; ``said`` is what the grower said of cells against the reading."""

    season: Season
    holder: str
    rows: int
    columns: int
    loaded: Loaded | None = None
    corners: Corners | None = None
    reading: Reading | None = None
    said: dict[Place, bool] = field(default_factory=dict)

    @property
    def size(self) -> tuple[int, int]:
        """The sides of the photograph [px]; 0 without one."""
        ready = self.loaded.photo.ready if self.loaded is not None else None
        return (ready.width, ready.height) if ready is not None else (0, 0)

    @property
    def fit(self) -> bool:
        """Whether the corners go round a true quadrilateral."""
        return self.corners is not None and is_fit(self.corners)

    @property
    def confidence(self) -> float | None:
        """How sure the corners are, 0 to 1; None where they are a guess or the grower's own."""
        marked = self.loaded.marked if self.loaded is not None else None
        if marked is None or self.corners is None or set(marked.corners) != set(self.corners):
            return None
        return marked.confidence if (marked.confidence or 0.0) >= LEAST else None

    def key(self, place: Place) -> SpotKey:
        """Return the spot of a cell."""
        return SpotKey(self.holder, *place)

    def mark(self, place: Place) -> Mark:
        """Return what a cell is taken for."""
        said = self.said.get(place)
        state = self._read(place)
        spot = self.season.spot(self.key(place))
        if said is None and state == UNSURE:
            return Mark.KNOWN if spot.up > 0 else Mark.UNSURE
        if not (said if said is not None else state == UP):
            return Mark.UNSEEN if spot.up > 0 else Mark.BARE
        return Mark.KNOWN if spot.up > 0 else Mark.NEW if spot.waiting > 0 else Mark.UNSOWN

    def marks(self) -> dict[Place, Mark]:
        """Return what each cell is taken for; none before the photograph was read."""
        if self.reading is None:
            return {}
        return {(cell.row, cell.column): self.mark((cell.row, cell.column)) for cell in self.reading.cells}

    def count(self, mark: Mark) -> int:
        """Return how many cells are taken for something."""
        return sum(one is mark for one in self.marks().values())

    def toggle(self, place: Place) -> None:
        """Take a cell for up, or if it was, for not up."""
        if self.reading is not None:
            self.said[place] = self.mark(place) in (Mark.BARE, Mark.UNSURE, Mark.UNSEEN)

    def green(self) -> list[SpotKey]:
        """Return the cells that are taken for up."""
        taken = (Mark.NEW, Mark.KNOWN, Mark.UNSOWN)
        return [self.key(place) for place, mark in self.marks().items() if mark in taken]

    def cover(self) -> list[CellCover]:
        """Return the leaf cover that was read."""
        cells = self.reading.cells if self.reading is not None else ()
        return [CellCover(cell.row, cell.column, cell.cover) for cell in cells]

    def spots(self, across: float, down: float) -> dict[Place, tuple[float, float]]:
        """Return where a point of each cell is in the photograph [px]; its middle is at 0.5, 0.5."""
        if self.corners is None or not self.fit:
            return {}
        matrix = homography(UNIT, self.corners)
        places = [(row, column) for row in range(self.rows) for column in range(self.columns)]
        within = [((column + across) / self.columns, (row + down) / self.rows) for row, column in places]
        return {
            place: (float(x), float(y)) for place, (x, y) in zip(places, mapped(matrix, within), strict=True)
        }

    def corner_names(self) -> tuple[str, str, str, str]:
        """Return the cells whose outer corners the four corners are."""
        last = row_label(self.rows - 1)
        return "A1", f"A{self.columns}", f"{last}{self.columns}", f"{last}1"

    def _read(self, place: Place) -> str:
        if self.reading is None:
            return ""
        return self.reading.cells[place[0] * self.columns + place[1]].state
