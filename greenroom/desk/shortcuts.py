"""Every shortcut of the window, in one table, so that none can clash unseen."""

from __future__ import annotations

import sys
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence

from greenroom.speech import tr

STANDARD = QKeySequence.StandardKey
MEDIA_KEYS = (Qt.Key.Key_Undo, Qt.Key.Key_Redo, Qt.Key.Key_Exit, Qt.Key.Key_Help, Qt.Key.Key_Find)
"""Keys of their own that few keyboards have; they count, but are not listed."""


KEY_WORDS = {
    "Arrow keys": tr("Arrow keys"),
    "0 to 9": tr("0 to 9"),
    "1 to 9": tr("1 to 9"),
    "Ctrl": tr("Ctrl", sense="key"),
    "Shift": tr("Shift", sense="key"),
    "Alt": tr("Alt", sense="key"),
    "Space": tr("Space", sense="key"),
    "Enter": tr("Enter", sense="key"),
    "Escape": tr("Escape", sense="key"),
    "Delete": tr("Delete", sense="key"),
    "Backspace": tr("Backspace", sense="key"),
    "Home": tr("Home", sense="key"),
    "End": tr("End", sense="key"),
    "Page Up": tr("Page Up", sense="key"),
    "Page Down": tr("Page Down", sense="key"),
    "Left": tr("Left", sense="key"),
    "Right": tr("Right", sense="key"),
    "Up": tr("Up", sense="key"),
    "Down": tr("Down", sense="key"),
}
"""Keys by the names they go by on a keyboard; a letter, a digit or a sign is its own name."""


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
            return [_key_words(key) for key in self.keys]
        media = [QKeySequence(key) for key in MEDIA_KEYS]
        return [_sequence_words(one) for one in self.sequences() if one not in media]


def _sequence_words(sequence: QKeySequence) -> str:
    """Return a sequence by the names of its keys, on a Mac by the signs of its keyboard.

    Qt's own names are not asked for: they differ from those of the catalogue, Control beside Ctrl.
    """
    if sys.platform == "darwin":
        return sequence.toString(QKeySequence.SequenceFormat.NativeText)
    return _key_words(sequence.toString(QKeySequence.SequenceFormat.PortableText))


def _key_words(key: str) -> str:
    """Return keys pressed together, Shift+Arrow keys, by the names they go by."""
    return key if len(key) == 1 else "+".join(KEY_WORDS.get(one, one) for one in key.split("+"))


WINDOW = (
    Shortcut("undo", tr("Undo"), ("Ctrl+Z",), STANDARD.Undo),
    Shortcut("redo", tr("Do again"), ("Ctrl+Shift+Z", "Ctrl+Y"), STANDARD.Redo),
    Shortcut("quit", tr("Leave", sense="end the program"), ("Ctrl+Q",), STANDARD.Quit),
    Shortcut("help", tr("Help: keys, words, the walk"), ("F1",), STANDARD.HelpContents),
    Shortcut("page 1", tr("Seed", sense="name of a page"), ("Ctrl+1",)),
    Shortcut("page 2", tr("Sow", sense="name of a page"), ("Ctrl+2",)),
    Shortcut("page 3", tr("Grow on", sense="name of a page"), ("Ctrl+3",)),
    Shortcut("page 4", tr("Harden", sense="name of a page"), ("Ctrl+4",)),
    Shortcut("page 5", tr("Set out", sense="name of a page"), ("Ctrl+5",)),
    Shortcut("page 6", tr("Pick", sense="name of a page"), ("Ctrl+6",)),
    Shortcut("round", tr("The round"), ("Ctrl+0",)),
    Shortcut("place", tr("The place"), ("Ctrl+9",)),
    Shortcut("copy table", tr("Copy the list or chart in use as a table"), ("Ctrl+Shift+C",)),
    Shortcut("open table", tr("Open that table, to sort and save it"), ("Ctrl+Shift+S",)),
    Shortcut("code", tr("Enter the code of a tag"), ("Ctrl+F",), STANDARD.Find),
)

CELLS = (
    Shortcut("move", tr("Go from cell to cell"), ("Arrow keys", "Home", "End")),
    Shortcut("extend", tr("Choose several cells"), ("Shift+Arrow keys",)),
    Shortcut("all", tr("Choose every cell"), ("Ctrl+A",)),
    Shortcut("mark", tr("Mark up, or take the mark back"), ("Space",)),
    Shortcut("more", tr("One more seedling up in the cell"), ("+",)),
    Shortcut("less", tr("Take one sprout mark back"), ("Backspace", "-")),
    Shortcut("lost", tr("Mark lost"), ("Delete",)),
    Shortcut("leaves", tr("Two, four or six true leaves; 0 for seed leaves only"), ("2", "4", "6", "0")),
    Shortcut("story", tr("Open the story of the cell"), ("Enter",)),
    Shortcut("lift", tr("Take the chosen seedlings in hand; again to put them down"), ("M",)),
    Shortcut("drop", tr("Let go of what is in hand"), ("Escape",)),
)
"""Keys of the tray itself; they count only while a tray or rack has the focus."""

CARE = (Shortcut("care", tr("Care of the open tray, rack or bed; Escape goes back"), ("Ctrl+K",)),)
"""The key of the pages that show trays, racks and beds."""

STORY = (
    Shortcut("story paste", tr("Paste a picture into the story"), ("Ctrl+V",)),
    Shortcut(
        "story pictures", tr("While one is seen large, the picture before and after"), ("Left", "Right")
    ),
    Shortcut("story close", tr("Back from a picture; close the story"), ("Escape",)),
)
"""Keys of an open story; they count only while it has the focus."""

PLAN = (
    Shortcut("plan move", tr("Go from place to place; while drawing, move the bed"), ("Arrow keys",)),
    Shortcut("plan size", tr("While drawing, make it larger or smaller"), ("Shift+Arrow keys",)),
    Shortcut("plan next", tr("The next bed; while drawing, the next thing"), ("Page Down", "Page Up")),
    Shortcut("plan story", tr("Open the story of the plant"), ("Enter",)),
    Shortcut("plan lift", tr("Take the plant in hand; again to put it down"), ("M",)),
    Shortcut("plan away", tr("While drawing, take it away"), ("Delete",)),
    Shortcut("plan drop", tr("Let go of what is in hand or chosen"), ("Escape",)),
)
"""Keys of the plan of the plot; they count only while it has the focus."""

PHOTO = (
    Shortcut("photo move", tr("Go from cell to cell; move a corner, with Shift further"), ("Arrow keys",)),
    Shortcut("photo corner", tr("The next corner; Escape goes back to the cells"), ("Page Down", "Page Up")),
    Shortcut("photo decide", tr("Take the cell for up, or not"), ("Space",)),
)
"""Keys of a photograph that is read; they count only while it has the focus."""

PICK = (
    Shortcut("pick write", tr("Write the pick down; on the list, take the line to the form"), ("Enter",)),
    Shortcut("pick next", tr("The next variety or bed"), ("Page Down", "Page Up")),
    Shortcut("pick line", tr("On the list, go from line to line"), ("Up", "Down")),
    Shortcut("pick colour", tr("Green, turning, ripe"), ("G", "T", "R")),
)
"""Keys of the form picks are written down with; they count only while it, or the list, has the focus."""

SIDE = (
    Shortcut("side move", tr("Go from tray to tray"), ("Up", "Down", "Page Down", "Page Up", "Home", "End")),
    Shortcut("side open", tr("Open the tray; Escape goes back"), ("Enter", "Space")),
)
"""Keys of the trays side by side; they count only while these have the focus."""

ROUND = (
    Shortcut("round move", tr("Go from job to job"), ("Up", "Down")),
    Shortcut("round done", tr("The job is done"), ("Enter", "Space")),
    Shortcut("round later", tr("Put it off until tomorrow"), ("L",)),
    Shortcut("round why", tr("Why?"), ("W",)),
    Shortcut("round never", tr("Never again"), ("Delete",)),
)
"""Keys of the round; they count only while a job has the focus."""

SEED = (
    Shortcut("seed open", tr("Open the packet's own fields"), ("Enter",)),
    Shortcut("seed strike", tr("Strike the packet out"), ("Delete",)),
    Shortcut("test day", tr("In a home test, go from day to day"), ("Arrow keys",)),
    Shortcut("test write", tr("Write that day's count"), ("0 to 9",)),
    Shortcut("test change", tr("One more, one less; clear it"), ("+", "-", "Backspace", "Delete")),
)
"""Keys of the seed box and of a home test's days."""

SOWING = (
    Shortcut(
        "want edit", tr("On the plan, write how many plants; take the variety off it"), ("Enter", "Delete")
    ),
    Shortcut(
        "day move",
        tr("On the odds or the season, a day or a week"),
        ("Left", "Right", "Page Down", "Page Up"),
    ),
    Shortcut("day row", tr("On the season, go from variety to variety"), ("Up", "Down")),
    Shortcut("day keep", tr("Keep the day tried, or let it go"), ("Enter", "Escape")),
)
"""Keys of the plan of what to sow."""

FILLING = (
    Shortcut("fill sow", tr("Sow the packet in the chosen cells"), ("Space", "Enter")),
    Shortcut("fill choose", tr("Choose empty cells, whole rows, whole columns"), ("E", "R", "C")),
    Shortcut("fill seeds", tr("So many seeds a cell"), ("1 to 9",)),
    Shortcut("fill packet", tr("On the list of packets, go to the cells"), ("Enter",)),
    Shortcut("fill drop", tr("Let go of what is drawn or chosen"), ("Escape",)),
)
"""Keys of the trays that are being filled."""

LAYOUT = (
    Shortcut("lay next", tr("The next block, the one before"), ("N", "End", "Home")),
    Shortcut("lay move", tr("Move the block"), ("Arrow keys",)),
    Shortcut("lay out", tr("Leave the block out"), ("Delete",)),
    Shortcut("lay drop", tr("Let go of a block that is dragged"), ("Escape",)),
)
"""Keys of the trays laid out from the plan."""

SHELF = (
    Shortcut("shelf open", tr("Open the tray or rack"), ("Enter", "Space")),
    Shortcut("shelf put", tr("Put what is in hand down in it"), ("M", "Enter")),
    Shortcut("shelf drop", tr("Let go of what is in hand"), ("Escape",)),
)
"""Keys of the list of trays and racks."""

FORMS = (
    Shortcut("form keep", tr("Keep what was written"), ("Enter",)),
    Shortcut("form close", tr("Close the panel, keep nothing"), ("Escape",)),
)
"""Keys of the small forms and panels that open in a page."""

WALK = (
    Shortcut("walk next", tr("The next step"), ("Alt+Right",)),
    Shortcut("walk back", tr("The step before"), ("Alt+Left",)),
    Shortcut("walk focus", tr("Between the card and the page"), ("F6",)),
    Shortcut("walk leave", tr("Leave the walk, with the keyboard on its card"), ("Escape",)),
)
"""Keys of the walk through the demo; they count only while it goes on."""

HELP = (
    Shortcut(
        "word go", tr("While typing, go through the words found"), ("Up", "Down", "Page Up", "Page Down")
    ),
)
"""Keys of the field in which a word is looked for."""


@dataclass(frozen=True, slots=True)
class Group:
    """Shortcuts that count in the same place."""

    title: str
    shortcuts: tuple[Shortcut, ...]


GROUPS = (
    Group(tr("Anywhere"), WINDOW),
    Group(tr("In the seed box"), SEED),
    Group(tr("On the sowing plan"), SOWING),
    Group(tr("Filling trays"), FILLING),
    Group(tr("Trays laid out from the plan"), LAYOUT),
    Group(tr("On the list of trays"), SHELF),
    Group(tr("In a tray or rack"), (*CARE, *CELLS)),
    Group(tr("On a photo of a tray"), PHOTO),
    Group(tr("In a story"), STORY),
    Group(tr("On trays side by side"), SIDE),
    Group(tr("On the plan of the plot"), PLAN),
    Group(tr("While picking"), PICK),
    Group(tr("On the round"), ROUND),
    Group(tr("In forms and panels"), FORMS),
    Group(tr("On the walk"), WALK),
    Group(tr("Among the words of the help"), HELP),
)
"""Every table of keys, in the order in which the list of keys shows them."""
