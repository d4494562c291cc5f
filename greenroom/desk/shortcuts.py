"""Every shortcut of the window, in one table, so that none can clash unseen."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtGui import QKeySequence

STANDARD = QKeySequence.StandardKey


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
        return [one.toString(native) for one in self.sequences()]


WINDOW = (
    Shortcut("undo", "Undo", ("Ctrl+Z",), STANDARD.Undo),
    Shortcut("redo", "Do again", ("Ctrl+Shift+Z", "Ctrl+Y"), STANDARD.Redo),
    Shortcut("quit", "Leave", ("Ctrl+Q",), STANDARD.Quit),
    Shortcut("help", "The list of keys", ("F1",), STANDARD.HelpContents),
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
    Shortcut("move", "Go from cell to cell", ("Arrow keys",)),
    Shortcut("extend", "Choose several cells", ("Shift+Arrow keys",)),
    Shortcut("all", "Choose every cell", ("Ctrl+A",)),
    Shortcut("mark", "Mark up, or take the mark back", ("Space",)),
    Shortcut("more", "One more seedling up in the cell", ("+",)),
    Shortcut("less", "Take one sprout mark back", ("Backspace",)),
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

PICK = (
    Shortcut("pick write", "Write the pick down; on the list, take the line to the form", ("Enter",)),
    Shortcut("pick next", "The next variety or bed", ("Page Down", "Page Up")),
    Shortcut("pick colour", "Green, turning, ripe", ("G", "T", "R")),
)
"""Keys of the form picks are written down with; they count only while it, or the list, has the focus."""

SIDE = (
    Shortcut("side move", "Go from tray to tray", ("Arrow keys", "Home", "End")),
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
