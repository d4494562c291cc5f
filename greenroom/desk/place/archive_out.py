"""Saving the whole season into one zip, off the window's thread."""

from __future__ import annotations

from pathlib import Path

from greenroom.desk.bench import Bench
from greenroom.desk.place.archive_words import written_words
from greenroom.desk.story.room import room_of
from greenroom.desk.tables.save_card import SaveCard, SaveWords, Work
from greenroom.desk.worker import Cancelled as AskedToStop
from greenroom.desk.worker import Progress
from greenroom.exchange.season_archive import write_archive
from greenroom.speech import tr

ARCHIVE = SaveWords(
    key="archive",
    title=tr("Save an archive"),
    about=tr(
        "One zip with everything: every fact, also those struck out, with who wrote it and "
        "when, and every picture. It is JSON with its schema beside it, so that other "
        "programs can read it, and it can be brought in again, here or on another computer."
    ),
    act=tr("Save an archive…"),
    share=tr("share of the archive written"),
    file=tr("greenroom season"),
)


def archive_out(bench: Bench) -> SaveCard:
    """Return the card that saves every fact, with who wrote it and when, and every picture."""

    def begin(path: Path) -> Work:
        keeper = bench.keeper
        ledger, now, store = keeper.ledger, keeper.now, room_of(keeper).store

        def write(progress: Progress, stopped: AskedToStop) -> str:
            return written_words(write_archive(path, ledger.book(), store, now, progress, stopped))

        return write

    return SaveCard(ARCHIVE, begin)
