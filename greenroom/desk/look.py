"""The look: colours, type, spacing and radii, in one place, for the light and the dark theme."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontDatabase, QGuiApplication, QPalette

from greenroom.own_files import resources_folder

FAMILY = "Inter"
FALLBACK_FAMILIES = (FAMILY, "Noto Sans", "Segoe UI", "Helvetica Neue", "DejaVu Sans")

BODY_PX = 13
SMALL_PX = 12
CARD_TITLE_PX = 15
PAGE_TITLE_PX = 20
COUNTER_PX = 88

GAP = 8
PAGE_MARGIN = 16
CARD_PADDING = 16
RADIUS = 8
TARGET_PX = 28


@dataclass(frozen=True, slots=True)
class Palette:
    """The colours of one theme, as #rrggbb. ``on_*`` is text on the colour of that name.

    ``edge`` and ``line`` part what is told otherwise, too; ``rim`` is what must be seen to find a field.
    """

    ground: str
    card: str
    edge: str
    rim: str
    line: str
    ink: str
    quiet: str
    leaf: str
    on_leaf: str
    leaf_text: str
    leaf_soft: str
    leaf_wash: str
    soil: str
    soil_edge: str
    on_soil: str
    seedling: str
    on_seedling: str
    clay: str
    on_clay: str
    clay_text: str
    clay_wash: str
    sun: str
    on_sun: str
    sun_wash: str
    plum: str
    plum_text: str
    sky: str
    link: str
    focus: str


LIGHT = Palette(
    ground="#f6f5f0",
    card="#ffffff",
    edge="#dedbd0",
    rim="#85827a",
    line="#e7e5dc",
    ink="#22302a",
    quiet="#5c6862",
    leaf="#3d7a4d",
    on_leaf="#ffffff",
    leaf_text="#2c6a3d",
    leaf_soft="#cde0c6",
    leaf_wash="#e8efe5",
    soil="#6a5a4a",
    soil_edge="#51443a",
    on_soil="#f4efe6",
    seedling="#a5d281",
    on_seedling="#1d2a1f",
    clay="#ad5534",
    on_clay="#ffffff",
    clay_text="#9c4626",
    clay_wash="#fbeee4",
    sun="#e0a526",
    on_sun="#22302a",
    sun_wash="#fbf1d8",
    plum="#7b3e68",
    plum_text="#7b3e68",
    sky="#c9dbe8",
    link="#2d6391",
    focus="#1d5fa8",
)

DARK = Palette(
    ground="#171c19",
    card="#202723",
    edge="#39433d",
    rim="#78837c",
    line="#303934",
    ink="#e8ede6",
    quiet="#a9b5ad",
    leaf="#408454",
    on_leaf="#ffffff",
    leaf_text="#8fd0a0",
    leaf_soft="#35543f",
    leaf_wash="#25302a",
    soil="#5b4d40",
    soil_edge="#80705e",
    on_soil="#f4efe6",
    seedling="#a9d886",
    on_seedling="#1d2a1f",
    clay="#b45f3e",
    on_clay="#ffffff",
    clay_text="#eda283",
    clay_wash="#3a2a22",
    sun="#e6b03c",
    on_sun="#1a1f1c",
    sun_wash="#3a321c",
    plum="#a1628c",
    plum_text="#dba6c9",
    sky="#33485a",
    link="#8fc0ea",
    focus="#8fc0ea",
)


class Look(QObject):
    """The theme in use; it follows the system unless it was told which to take."""

    changed = Signal()

    def __init__(self, *, dark: bool | None = None) -> None:
        super().__init__()
        self._fixed = dark is not None
        self.palette = DARK if (self._system_dark() if dark is None else dark) else LIGHT
        if not self._fixed:
            QGuiApplication.styleHints().colorSchemeChanged.connect(self._follow_system)

    @property
    def dark(self) -> bool:
        """Whether the dark theme is in use."""
        return self.palette is DARK

    def set_dark(self, dark: bool) -> None:
        """Take the dark or the light theme from now on."""
        wanted = DARK if dark else LIGHT
        if wanted is not self.palette:
            self.palette = wanted
            self.changed.emit()

    def colour(self, name: str) -> QColor:
        """Return one colour of the palette by its name."""
        return QColor(getattr(self.palette, name))

    def _follow_system(self) -> None:
        self.set_dark(self._system_dark())

    @staticmethod
    def _system_dark() -> bool:
        return QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark


def font(pixels: int = BODY_PX, weight: QFont.Weight = QFont.Weight.Normal) -> QFont:
    """Return the program's typeface at a size in pixels."""
    made = QFont()
    made.setFamilies(list(FALLBACK_FAMILIES))
    made.setPixelSize(pixels)
    made.setWeight(weight)
    return made


def load_fonts() -> None:
    """Make the typeface that comes with the program known to Qt."""
    for file in (resources_folder() / "fonts").iterdir():
        if file.name.endswith(".otf"):
            QFontDatabase.addApplicationFontFromData(file.read_bytes())


def qt_palette(palette: Palette) -> QPalette:
    """Return Qt's own palette for widgets that are not painted here."""
    made = QPalette()
    roles = {
        QPalette.ColorRole.Window: palette.ground,
        QPalette.ColorRole.WindowText: palette.ink,
        QPalette.ColorRole.Base: palette.card,
        QPalette.ColorRole.AlternateBase: palette.leaf_wash,
        QPalette.ColorRole.Text: palette.ink,
        QPalette.ColorRole.PlaceholderText: palette.quiet,
        QPalette.ColorRole.Button: palette.card,
        QPalette.ColorRole.ButtonText: palette.ink,
        QPalette.ColorRole.Highlight: palette.leaf,
        QPalette.ColorRole.HighlightedText: palette.on_leaf,
        QPalette.ColorRole.ToolTipBase: palette.card,
        QPalette.ColorRole.ToolTipText: palette.ink,
        QPalette.ColorRole.Link: palette.link,
    }
    for role, colour in roles.items():
        made.setColor(role, QColor(colour))
    for role in (QPalette.ColorRole.Text, QPalette.ColorRole.ButtonText, QPalette.ColorRole.WindowText):
        made.setColor(QPalette.ColorGroup.Disabled, role, QColor(palette.quiet))
    return made
