"""One session with a ledger: what is done is kept, what is refused changes nothing, time is the place's."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from greenroom.desk.clock import Clock, at_local, standing_at
from greenroom.desk.instance import InUseError
from greenroom.desk.keeper import Keeper, sentence
from greenroom.desk.session import demo_ledger, file_of, own_ledger
from greenroom.ledger import Ledger, LedgerError
from greenroom.ledger.facts import HolderMade, Packet, PlaceSet, Sown, Sprouted
from greenroom.season import deeds_spots
from greenroom.season.deeds_shelf import set_place
from greenroom.season.packets import packets
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from tests.desk.conftest import TODAY, ZONE, holder_named

DAY = date(2027, 5, 14)


def told(keeper):
    """What the window hears of: changes, refusals and acts, in order."""
    heard = []
    keeper.changed.connect(lambda touched: heard.append(("changed", touched)))
    keeper.refused.connect(lambda words: heard.append(("refused", words)))
    keeper.did.connect(lambda words: heard.append(("did", words)))
    return heard


def cell(season, row=0, column=5):
    return SpotKey(holder_named(season, "Tray A"), row, column)


def test_an_act_is_on_the_disk_before_the_window_hears_of_it(keeper, shelf, ledger_path):
    seen = []
    keeper.changed.connect(lambda _: seen.append(len(_read(ledger_path, "sprouted"))))
    before = len(_read(ledger_path, "sprouted"))
    assert keeper.do(lambda: deeds_spots.mark_up(shelf, [cell(shelf)], TODAY))
    assert seen == [before + 1]


def _read(path, kind):
    with Ledger.open(path) as other:
        return other.facts(kind)


def test_the_window_hears_of_an_act_once_and_only_of_what_it_touched(keeper, shelf):
    heard = told(keeper)
    keeper.do(lambda: deeds_spots.mark_up(shelf, [cell(shelf)], TODAY))
    assert [kind for kind, _ in heard] == ["changed", "did"]
    assert heard[0][1].spots == {cell(shelf)}
    assert heard[1][1] == "marked A6 of Tray A up"


def test_a_refused_act_leaves_the_season_and_both_undo_directions_as_they_were(keeper, shelf):
    keeper.do(lambda: deeds_spots.mark_up(shelf, [cell(shelf)], TODAY))
    keeper.undo()
    names = keeper.ledger.undo_name, keeper.ledger.redo_name
    facts = keeper.ledger.facts()
    heard = told(keeper)
    assert not keeper.do(lambda: deeds_spots.mark_up(shelf, [cell(shelf, column=11)], TODAY))
    assert [kind for kind, _ in heard] == ["refused"]
    assert (keeper.ledger.undo_name, keeper.ledger.redo_name) == names
    assert names[1] == "marked A6 of Tray A up"
    assert keeper.ledger.facts() == facts


@pytest.mark.parametrize(
    "make",
    [
        lambda: Proposal("no such fact", strike=("gone",)),
        lambda: Proposal("no time zone", record=(_placed("Nowhere/None"),)),
        lambda: Proposal("half of it wrong", record=(_placed("UTC"), _placed("Nowhere/None"))),
    ],
)
def test_what_the_ledger_refuses_is_told_in_one_sentence_and_nothing_is_kept(keeper, make):
    facts, undo = keeper.ledger.facts(), keeper.ledger.undo_name
    heard = told(keeper)
    assert not keeper.do(make)
    (kind, words) = heard[0]
    assert kind == "refused"
    assert words[0].isupper()
    assert words.endswith(".")
    assert keeper.ledger.facts() == facts
    assert keeper.ledger.undo_name == undo


def _placed(zone):
    return PlaceSet(day=DAY, name="Hill", latitude=1.0, longitude=1.0, zone=zone)


def test_a_closed_ledger_is_told_and_not_raised(keeper):
    keeper.ledger.close()
    heard = told(keeper)
    assert not keeper.do(lambda: set_place("Hill", 1.0, 1.0, "UTC", DAY))
    assert not keeper.undo()
    assert not keeper.redo()
    assert [kind for kind, _ in heard] == ["refused"] * 3


def test_a_proposal_of_nothing_is_nothing(keeper):
    heard = told(keeper)
    assert not keeper.do(lambda: Proposal("nothing"))
    assert heard == []


def test_an_error_nobody_foresaw_is_not_swallowed(keeper):
    def broken():
        raise ZeroDivisionError("by accident")

    with pytest.raises(ZeroDivisionError):
        keeper.do(broken)


def test_undo_and_redo_name_what_they_do_and_survive_a_restart(qapp, keeper, shelf, ledger_path, moment):
    keeper.do(lambda: deeds_spots.mark_up(shelf, [cell(shelf)], TODAY))
    keeper.ledger.close()
    with Ledger.open(ledger_path, clock=moment) as ledger:
        again = Keeper(ledger, Clock(moment))
        heard = told(again)
        assert again.season.spot(cell(again.season)).up == 1
        assert again.undo()
        assert again.season.spot(cell(again.season)).up == 0
        assert again.redo()
        assert again.season.spot(cell(again.season)).up == 1
        words = [words for kind, words in heard if kind == "did"]
        assert words == ["undone: marked A6 of Tray A up", "done again: marked A6 of Tray A up"]


def test_with_nothing_left_undo_and_redo_say_so(keeper):
    heard = told(keeper)
    assert keeper.undo()
    assert not keeper.undo()
    assert not keeper.place.known
    assert keeper.redo()
    assert not keeper.redo()
    refused = [words for kind, words in heard if kind == "refused"]
    assert refused == ["There is nothing to undo.", "There is nothing to redo."]


@pytest.mark.parametrize(
    ("text", "words"),
    [("a lot", "A lot."), ("Done.", "Done."), (" really? ", "Really?"), ("", ""), ("é", "É.")],
)
def test_a_refusal_is_made_a_sentence(text, words):
    assert sentence(text) == words


def test_today_is_the_day_at_the_place_and_not_that_of_the_machine(keeper, moment):
    moment.moment = datetime(2027, 5, 14, 23, 30, tzinfo=UTC)
    assert keeper.today == date(2027, 5, 15)
    keeper.do(lambda: set_place("Far West", 46.0, -120.0, "America/Los_Angeles", DAY))
    assert keeper.today == date(2027, 5, 14)


def test_a_clock_moved_to_a_day_goes_on_from_there():
    moments = iter(
        [datetime(2026, 11, 25, 9, 0, tzinfo=UTC)] * 2 + [datetime(2026, 11, 25, 10, 0, tzinfo=UTC)]
    )
    clock = Clock(lambda: next(moments)).moved_to(DAY, ZONE)
    # 9:00 UTC is 10:00 in Ljubljana in winter; on 14 May it is 10:00 there by summer time, 8:00 UTC.
    assert clock.now() == datetime(2027, 5, 14, 8, 0, tzinfo=UTC)
    assert clock.now() == datetime(2027, 5, 14, 9, 0, tzinfo=UTC)


def test_a_clock_may_stand_still():
    moment = at_local(DAY, 9, 54, ZoneInfo("Europe/Ljubljana"))
    assert standing_at(moment).now() == standing_at(moment).now() == datetime(2027, 5, 14, 7, 54, tzinfo=UTC)


def test_own_ledger_is_made_kept_and_opened_again(qapp, tmp_path):
    path = tmp_path / "new" / "folder" / "season.greenroom"
    with own_ledger(str(path)) as keeper:
        assert keeper.do(lambda: set_place("Ridge Lane", 46.4, 16.0, "UTC", keeper.today))
        assert keeper.lock is not None
    with own_ledger(str(path), today=DAY) as keeper:
        assert keeper.place.name == "Ridge Lane"
        assert keeper.today == DAY
    assert [one.name for one in path.parent.iterdir()] == [path.name]


def test_a_ledger_that_cannot_be_opened_leaves_no_lock_behind(qapp, tmp_path):
    path = tmp_path / "notes.txt"
    path.write_text("no ledger")
    with pytest.raises(LedgerError), own_ledger(str(path)):
        pass
    path.unlink()
    with own_ledger(str(path)):
        assert path.exists()


def test_one_ledger_under_two_names_is_one_ledger(qapp, tmp_path):
    path, link = tmp_path / "season.greenroom", tmp_path / "link.greenroom"
    link.symlink_to(path)
    with own_ledger(str(path)):
        for name in (str(link), f"sqlite:///{path}"):
            with pytest.raises(InUseError, match="is open in another greenroom"), own_ledger(name):
                pass


@pytest.mark.parametrize(
    ("ledger", "file"),
    [
        ("season.greenroom", "season.greenroom"),
        ("sqlite:///season.greenroom", "season.greenroom"),
        ("sqlite+pysqlite:////home/x/a.greenroom?timeout=3", "/home/x/a.greenroom"),
        ("sqlite://", None),
        ("sqlite:///:memory:", None),
        ("postgresql://user@host/name", None),
    ],
)
def test_only_what_is_kept_in_a_file_is_locked(ledger, file):
    """SQLAlchemy's URLs: three slashes for a relative path, four for an absolute one."""
    assert file_of(ledger) == (Path(file) if file else None)


def test_the_demo_is_the_same_read_back_from_its_ledger(qapp):
    with demo_ledger(still=True) as keeper:
        again = Season(keeper.ledger.entries())
        assert again.holders() == keeper.season.holders()
        assert packets(again) == packets(keeper.season)
        for holder in again.holders():
            assert again.spots(holder.key) == keeper.season.spots(holder.key)
            assert again.holder_facts(holder.key) == keeper.season.holder_facts(holder.key)
        assert keeper.now == datetime(2027, 5, 14, 7, 54, tzinfo=UTC)


def test_what_is_still_to_be_written_is_there_for_whoever_asks_the_ledger(qapp):
    with demo_ledger() as keeper:
        assert callable(keeper._ledger)  # not even open yet
        assert keeper.ledger.undo_name.endswith("of 14 May")
        facts = len(keeper.ledger.facts())
        keeper.write_up()
        assert len(keeper.ledger.facts()) == facts > 1000


def test_the_demo_can_be_worked_in_and_undone_step_by_step(qapp):
    with demo_ledger() as keeper:
        tray = holder_named(keeper.season, "Tray E")
        bare = next(spot.key for spot in keeper.season.spots(tray) if spot.waiting)
        assert keeper.do(lambda: deeds_spots.click(keeper.season, bare, keeper.today))
        assert keeper.undo()
        assert keeper.undo()
        assert keeper.season.spot(bare).waiting == 1
        assert len(keeper.season.holders()) > 8


@pytest.mark.parametrize("day", [date(2026, 8, 1), date(2027, 3, 1), date(2027, 7, 1), date(2100, 1, 1)])
def test_the_demo_opens_on_any_day(qapp, day):
    with demo_ledger(today=day, still=True) as keeper:
        assert keeper.today == day
        assert keeper.place.known


def test_a_demo_that_goes_on_starts_at_its_own_moment(qapp):
    with demo_ledger() as keeper:
        assert abs(keeper.now - datetime(2027, 5, 14, 7, 54, tzinfo=UTC)) < timedelta(minutes=1)
        assert {type(fact) for fact in keeper.ledger.facts()} >= {HolderMade, Packet, Sown, Sprouted}


def test_refusals_of_a_deed_reach_the_window_as_they_are(keeper):
    def refuse():
        raise RefusedError("That cannot be done; do this instead.")

    heard = told(keeper)
    keeper.do(refuse)
    assert heard == [("refused", "That cannot be done; do this instead.")]
