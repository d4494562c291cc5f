"""Every shortcut of the window, in one table, so that none can clash unseen."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence

STANDARD = QKeySequence.StandardKey
MEDIA_KEYS = (Qt.Key.Key_Undo, Qt.Key.Key_Redo, Qt.Key.Key_Exit, Qt.Key.Key_Help, Qt.Key.Key_Find)
"""Keys of their own that few keyboards have; they count, but are not listed."""


@dataclass(frozen=True, slots=True)
class Shortcut:
    """A shortcut: what it does in words, its keys, and the standard key of the platform if there is one."""

    key: str
    words: str
    keys: tuple[str, ...]
    standard: QKeySequence.StandardKey | None = None

    def sequences(self) -> list[QKeySequence]:
        """Return the platform's own keys, and the explicit ones where it has none."""
        own = QKeySequence.keyBindings(self.standard) if self.standard is not None else []
        explicit = [QKeySequence(text) for text in self.keys]
        return list(own) + [one for one in explicit if one not in own]

    def shown(self) -> list[str]:
        """Return the keys as the list of keys shows them: its own words where they are no sequence."""
        if self.standard is None:
            return list(self.keys)
        native = QKeySequence.SequenceFormat.NativeText
        media = [QKeySequence(key) for key in MEDIA_KEYS]
        return [one.toString(native) for one in self.sequences() if one not in media]


WINDOW = (
    Shortcut("undo", "Undo", ("Ctrl+Z",), STANDARD.Undo),
    Shortcut("redo", "Do again", ("Ctrl+Shift+Z", "Ctrl+Y"), STANDARD.Redo),
    Shortcut("quit", "Leave", ("Ctrl+Q",), STANDARD.Quit),
    Shortcut("help", "Help: keys, words, the walk", ("F1",), STANDARD.HelpContents),
    Shortcut("page 1", "Seed", ("Ctrl+1",)),
    Shortcut("page 2", "Sow", ("Ctrl+2",)),
    Shortcut("page 3", "Grow on", ("Ctrl+3",)),
    Shortcut("page 4", "Harden", ("Ctrl+4",)),
    Shortcut("page 5", "Set out", ("Ctrl+5",)),
    Shortcut("page 6", "Pick", ("Ctrl+6",)),
    Shortcut("round", "The round", ("Ctrl+0",)),
    Shortcut("place", "The place", ("Ctrl+9",)),
    Shortcut("copy table", "Copy the list or chart in use as a table", ("Ctrl+Shift+C",)),
    Shortcut("open table", "Open that table, to sort and save it", ("Ctrl+Shift+S",)),
    Shortcut("code", "Enter the code of a tag", ("Ctrl+F",), STANDARD.Find),
)

CELLS = (
    Shortcut("move", "Go from cell to cell", ("Arrow keys", "Home", "End")),
    Shortcut("extend", "Choose several cells", ("Shift+Arrow keys",)),
    Shortcut("all", "Choose every cell", ("Ctrl+A",)),
    Shortcut("mark", "Mark up, or take the mark back", ("Space",)),
    Shortcut("more", "One more seedling up in the cell", ("+",)),
    Shortcut("less", "Take one sprout mark back", ("Backspace", "-")),
    Shortcut("lost", "Mark lost", ("Delete",)),
    Shortcut("leaves", "Two, four or six true leaves; 0 for seed leaves only", ("2", "4", "6", "0")),
    Shortcut("story", "Open the story of the cell", ("Enter",)),
    Shortcut("lift", "Take the chosen seedlings in hand; again to put them down", ("M",)),
    Shortcut("drop", "Let go of what is in hand", ("Escape",)),
)
"""Keys of the tray itself; they count only while a tray or rack has the focus."""

CARE = (Shortcut("care", "Care of the open tray, rack or bed; Escape goes back", ("Ctrl+K",)),)
"""The key of the pages that show trays, racks and beds."""

STORY = (
    Shortcut("story paste", "Paste a picture into the story", ("Ctrl+V",)),
    Shortcut("story pictures", "While one is seen large, the picture before and after", ("Left", "Right")),
    Shortcut("story close", "Back from a picture; close the story", ("Escape",)),
)
"""Keys of an open story; they count only while it has the focus."""

PLAN = (
    Shortcut("plan move", "Go from place to place; while drawing, move the bed", ("Arrow keys",)),
    Shortcut("plan size", "While drawing, make it larger or smaller", ("Shift+Arrow keys",)),
    Shortcut("plan next", "The next bed; while drawing, the next thing", ("Page Down", "Page Up")),
    Shortcut("plan story", "Open the story of the plant", ("Enter",)),
    Shortcut("plan lift", "Take the plant in hand; again to put it down", ("M",)),
    Shortcut("plan away", "While drawing, take it away", ("Delete",)),
    Shortcut("plan drop", "Let go of what is in hand or chosen", ("Escape",)),
)
"""Keys of the plan of the plot; they count only while it has the focus."""

PHOTO = (
    Shortcut("photo move", "Go from cell to cell; move a corner, with Shift further", ("Arrow keys",)),
    Shortcut("photo corner", "The next corner; Escape goes back to the cells", ("Page Down", "Page Up")),
    Shortcut("photo decide", "Take the cell for up, or not", ("Space",)),
)
"""Keys of a photograph that is read; they count only while it has the focus."""

PICK = (
    Shortcut("pick write", "Write the pick down; on the list, take the line to the form", ("Enter",)),
    Shortcut("pick next", "The next variety or bed", ("Page Down", "Page Up")),
    Shortcut("pick line", "On the list, go from line to line", ("Up", "Down")),
    Shortcut("pick colour", "Green, turning, ripe", ("G", "T", "R")),
)
"""Keys of the form picks are written down with; they count only while it, or the list, has the focus."""

SIDE = (
    Shortcut("side move", "Go from tray to tray", ("Up", "Down", "Page Down", "Page Up", "Home", "End")),
    Shortcut("side open", "Open the tray; Escape goes back", ("Enter", "Space")),
)
"""Keys of the trays side by side; they count only while these have the focus."""

ROUND = (
    Shortcut("round move", "Go from job to job", ("Up", "Down")),
    Shortcut("round done", "The job is done", ("Enter", "Space")),
    Shortcut("round later", "Put it off until tomorrow", ("L",)),
    Shortcut("round why", "Why?", ("W",)),
    Shortcut("round never", "Never again", ("Delete",)),
)
"""Keys of the round; they count only while a job has the focus."""

SEED = (
    Shortcut("seed open", "Open the packet's own fields", ("Enter",)),
    Shortcut("seed strike", "Strike the packet out", ("Delete",)),
    Shortcut("test day", "In a home test, go from day to day", ("Arrow keys",)),
    Shortcut("test write", "Write that day's count", ("0 to 9",)),
    Shortcut("test change", "One more, one less; clear it", ("+", "-", "Backspace", "Delete")),
)
"""Keys of the seed box and of a home test's days."""

SOWING = (
    Shortcut("want edit", "On the plan, write how many plants; take the variety off it", ("Enter", "Delete")),
    Shortcut(
        "day move", "On the odds or the season, a day or a week", ("Left", "Right", "Page Down", "Page Up")
    ),
    Shortcut("day row", "On the season, go from variety to variety", ("Up", "Down")),
    Shortcut("day keep", "Keep the day tried, or let it go", ("Enter", "Escape")),
)
"""Keys of the plan of what to sow."""

FILLING = (
    Shortcut("fill sow", "Sow the packet in the chosen cells", ("Space", "Enter")),
    Shortcut("fill choose", "Choose empty cells, whole rows, whole columns", ("E", "R", "C")),
    Shortcut("fill seeds", "So many seeds a cell", ("1 to 9",)),
    Shortcut("fill packet", "On the list of packets, go to the cells", ("Enter",)),
    Shortcut("fill drop", "Let go of what is drawn or chosen", ("Escape",)),
)
"""Keys of the trays that are being filled."""

LAYOUT = (
    Shortcut("lay next", "The next block, the one before", ("N", "End", "Home")),
    Shortcut("lay move", "Move the block", ("Arrow keys",)),
    Shortcut("lay out", "Leave the block out", ("Delete",)),
    Shortcut("lay drop", "Let go of a block that is dragged", ("Escape",)),
)
"""Keys of the trays laid out from the plan."""

SHELF = (
    Shortcut("shelf open", "Open the tray or rack", ("Enter", "Space")),
    Shortcut("shelf put", "Put what is in hand down in it", ("M", "Enter")),
    Shortcut("shelf drop", "Let go of what is in hand", ("Escape",)),
)
"""Keys of the list of trays and racks."""

FORMS = (
    Shortcut("form keep", "Keep what was written", ("Enter",)),
    Shortcut("form close", "Close the panel, keep nothing", ("Escape",)),
)
"""Keys of the small forms and panels that open in a page."""

WALK = (
    Shortcut("walk next", "The next step", ("Alt+Right",)),
    Shortcut("walk back", "The step before", ("Alt+Left",)),
    Shortcut("walk focus", "Between the card and the page", ("F6",)),
    Shortcut("walk leave", "Leave the walk, with the keyboard on its card", ("Escape",)),
)
"""Keys of the walk through the demo; they count only while it goes on."""

HELP = (
    Shortcut("word go", "While typing, go through the words found", ("Up", "Down", "Page Up", "Page Down")),
)
"""Keys of the field in which a word is looked for."""


@dataclass(frozen=True, slots=True)
class Group:
    """Shortcuts that count in the same place; ``code`` names the folders and modules that answer them."""

    title: str
    shortcuts: tuple[Shortcut, ...]
    code: tuple[str, ...]


GROUPS = (
    Group("Anywhere", WINDOW, ()),
    Group("In the seed box", SEED, ("seed",)),
    Group("On the sowing plan", SOWING, ("sow/want_table", "sow/odds_chart", "sow/season_strip")),
    Group("Filling trays", FILLING, ("sow/sow_view", "sow/packet_list")),
    Group("Trays laid out from the plan", LAYOUT, ("sow/layout_canvas",)),
    Group("On the list of trays", SHELF, ("grow/holder_list",)),
    Group("In a tray or rack", (*CARE, *CELLS), ("grow/cell_keys", "care/care_view")),
    Group("On a photo of a tray", PHOTO, ("grow/photo_view",)),
    Group("In a story", STORY, ("story",)),
    Group("On trays side by side", SIDE, ("harden/tray_grid",)),
    Group("On the plan of the plot", PLAN, ("set_out/plan_keys",)),
    Group("While picking", PICK, ("pick",)),
    Group("On the round", ROUND, ("round",)),
    Group("In forms and panels", FORMS, ("grow/", "sow/new_holder", "harden/", "paper")),
    Group("On the walk", WALK, ("help/walk",)),
    Group("Among the words of the help", HELP, ("help/words_part",)),
)
"""Every table of keys, in the order in which the list of keys shows them."""
