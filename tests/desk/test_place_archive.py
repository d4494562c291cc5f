"""What the grower relies on: all of a ledger goes into one file, and comes back here or elsewhere."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from greenroom.desk.clock import Clock
from greenroom.desk.keeper import Keeper
from greenroom.desk.place.archive_tab import ArchiveTab
from greenroom.desk.place.first_run import FirstRun
from greenroom.desk.place.page import PlacePage
from greenroom.desk.story.room import room_of
from greenroom.ledger import Ledger
from greenroom.season.deeds_spots import mark_up
from greenroom.season.spots import SpotKey
from greenroom.season.story_deeds import About, keep_pictures
from tests.desk.conftest import TODAY, holder_named

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def tab(qtbot, bench, shelf):
    """The archive's tab of a ledger with two trays' worth of facts and a picture."""
    keeper = bench.keeper
    kept = room_of(keeper).store.keep(b"picture", 3, 2)
    tray = holder_named(shelf, "Tray A")
    keeper.do(lambda: keep_pictures(shelf, About(holder=tray), [kept], TODAY))
    return shown(qtbot, bench)


def shown(qtbot, bench):
    made = ArchiveTab(bench)
    qtbot.addWidget(made, before_close_func=lambda tab: tab.closing())
    made.resize(900, 600)
    made.show()
    return made


def saved(qtbot, tab, path):
    tab.out.start(path)
    qtbot.waitUntil(lambda: "was saved" in tab.out.told.text())
    return path


def looked(qtbot, tab, path):
    tab.coming.look_at(str(path))
    qtbot.waitUntil(lambda: tab.coming.bring.isVisible())


def brought(qtbot, tab):
    QTest.mouseClick(tab.coming.bring, LEFT)
    qtbot.waitUntil(lambda: tab.coming.told.text().startswith("Brought in"))


@pytest.fixture
def elsewhere(tmp_path, moment, bench):
    """Another computer's keeper, its ledger empty, on the same bench."""
    with Ledger.open(tmp_path / "other" / "season.greenroom", clock=moment, who="other") as ledger:
        mine, bench.keeper = bench.keeper, Keeper(ledger, Clock(moment))
        yield mine
        bench.keeper = mine


def test_a_ledger_moves_whole_to_another_computer_with_its_pictures(qtbot, tab, bench, tmp_path, request):
    path = saved(qtbot, tab, tmp_path / "all.zip")
    number = len(bench.keeper.ledger.book().entries)
    assert tab.out.told.text() == f"all.zip was saved: {number} facts and 1 picture."
    mine = request.getfixturevalue("elsewhere")
    other = shown(qtbot, bench)
    looked(qtbot, other, path)
    assert other.coming.told.text().endswith(f"{number} facts and 1 picture.")
    assert "takes the archive over whole" in other.coming.would.text()
    brought(qtbot, other)
    assert other.coming.told.text() == f"Brought in: {number} facts and 1 picture."
    assert bench.keeper.ledger.book() == mine.ledger.book()
    tray = holder_named(bench.keeper.season, "Tray A")
    assert bench.keeper.season.spots(tray) == mine.season.spots(tray)
    files = [
        sorted(one.name for one in room_of(keeper).store.folder.iterdir()) for keeper in (mine, bench.keeper)
    ]
    assert files[0] == files[1]
    looked_again(qtbot, other, path)


def looked_again(qtbot, tab, path):
    looked(qtbot, tab, path)
    assert tab.coming.would.text() == "All of it is here already; there is nothing to bring in."
    assert not tab.coming.bring.isEnabled()
    QTest.mouseClick(tab.coming.cancel, LEFT)
    assert not tab.coming.bring.isVisible()


def test_a_mark_undone_here_after_the_archive_was_saved_stays_undone(qtbot, tab, bench, tmp_path, moment):
    keeper = bench.keeper
    tray = holder_named(keeper.season, "Tray A")
    keeper.do(lambda: mark_up(keeper.season, [SpotKey(tray, 0, 2)], date(2027, 3, 22)))
    path = saved(qtbot, tab, tmp_path / "before.zip")
    moment.go_on(hours=1)
    keeper.undo()
    looked_again(qtbot, tab, path)
    assert keeper.season.spot(SpotKey(tray, 0, 2)).up == 0


def test_facts_of_a_friend_are_merged_and_undone(qtbot, tab, bench, tmp_path, moment, request):
    keeper = bench.keeper
    own = saved(qtbot, tab, tmp_path / "own.zip")
    request.getfixturevalue("elsewhere")
    friend = shown(qtbot, bench)
    looked(qtbot, friend, own)
    brought(qtbot, friend)
    tray = holder_named(bench.keeper.season, "Tray A")
    season = bench.keeper.season
    moment.go_on(hours=1)
    bench.keeper.do(lambda: mark_up(season, [SpotKey(tray, 5, 5)], TODAY))
    theirs = saved(qtbot, friend, tmp_path / "theirs.zip")
    bench.keeper = keeper
    names = []
    keeper.did.connect(names.append)
    mine = shown(qtbot, bench)
    looked(qtbot, mine, theirs)
    assert mine.coming.would.text().startswith("New here: 1 fact.")
    brought(qtbot, mine)
    assert names == ["brought in theirs.zip"]
    assert keeper.season.spot(SpotKey(tray, 5, 5)).up == 1
    assert keeper.undo()
    assert keeper.season.spot(SpotKey(tray, 5, 5)).up == 0


def test_a_file_that_is_no_archive_is_told_in_one_sentence_and_nothing_changes(qtbot, tab, bench, tmp_path):
    path = tmp_path / "holiday.zip"
    path.write_bytes(b"PK\x03\x04 cut off")
    before = bench.keeper.ledger.book()
    tab.coming.look_at(str(path))
    qtbot.waitUntil(lambda: tab.coming.trouble.isVisible())
    assert tab.coming.trouble.text().startswith("holiday.zip is no season archive")
    assert tab.coming.trouble.text().endswith("Nothing was brought in.")
    assert bench.keeper.ledger.book() == before


def test_the_first_run_leads_those_who_have_an_archive_to_it(qtbot, bench):
    first, place = FirstRun(bench, lambda: None), PlacePage(bench)
    for page in (first, place):
        qtbot.addWidget(page)
    first.archive.click()
    assert bench.shown == ["place"]
    place.show()
    place.entered()
    assert place.tabs.current == "archive"
    place.open_part("where")
    place.entered()
    assert place.tabs.current == "where"
    place.closing()
