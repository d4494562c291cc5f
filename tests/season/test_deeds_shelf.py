"""The seed box, trays, racks and the place: what may be done, and what is refused unharmed."""

from datetime import UTC, date, datetime, timedelta

import pytest

from greenroom.ledger import BadFactError, Ledger
from greenroom.ledger.facts import PlaceSet, UnitsSet, Variety, WeatherDay, WeatherRecord
from greenroom.season import deeds_shelf as deeds
from greenroom.season.deeds_harden import go_out, start_hardening
from greenroom.season.deeds_spots import mark_lost, mark_up, sow
from greenroom.season.packets import SeedEntry, already_there, packets, varieties
from greenroom.season.place import place_of, weather_days
from greenroom.season.proposal import RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from tests.season.told import the_guide

DAY = date(2027, 2, 20)
CINDER = SeedEntry("Cinder Lantern", "habanero", "26-01", 2026, 40, 0.85, 100)
TRAY = {"name": "Tray A", "form": "tray", "rows": 6, "columns": 12, "day": DAY}


class Shelf:
    """A season on a ledger, to do things with and to take them back."""

    def __init__(self, ledger):
        self.ledger = ledger
        self.season = Season(guide=the_guide())

    def do(self, proposal):
        change = self.ledger.do(proposal.name, record=proposal.record, strike=proposal.strike)
        self.season.take(change)
        return proposal

    def undo(self):
        self.season.take(self.ledger.undo())

    def add(self, *entries):
        return self.do(deeds.add_packets(self.season, entries, DAY))

    def packet(self, name, lot=""):
        return next(view for view in packets(self.season) if (view.name, view.packet.lot) == (name, lot))

    def correct(self, view, **changes):
        entry = SeedEntry(**{**_fields(view.entry), **changes})
        return self.do(deeds.correct_packet(self.season, view.key, entry))

    def tray(self, **changes):
        self.do(deeds.make_holder(self.season, **{**TRAY, **changes}))
        return self.season.holders()[-1]


def _fields(entry):
    return {name: getattr(entry, name) for name in SeedEntry.__slots__}


@pytest.fixture
def shelf(tmp_path):
    with Ledger.open(tmp_path / "season.greenroom") as ledger:
        yield Shelf(ledger)


def entries_of(season):
    return [view.entry for view in packets(season)]


# the seed box


def test_a_packet_comes_into_the_box_as_it_was_entered(shelf):
    proposal = shelf.add(CINDER)
    assert entries_of(shelf.season) == [CINDER]
    assert proposal.name == "added Cinder Lantern"


def test_two_lots_of_one_variety_share_the_variety(shelf):
    shelf.add(CINDER, SeedEntry("cinder  lantern", lot="25-07"))
    assert len(varieties(shelf.season)) == 1
    assert [view.name for view in packets(shelf.season)] == ["Cinder Lantern"] * 2


def test_a_second_packet_fills_in_what_was_not_known_of_the_variety(shelf):
    shelf.add(SeedEntry("Cinder Lantern"))
    shelf.add(SeedEntry("Cinder Lantern", "habanero", "27-02", days_to_ripe=100))
    assert {(view.crop, view.days_to_ripe) for view in packets(shelf.season)} == {("habanero", 100)}
    shelf.undo()
    assert [(view.crop, view.days_to_ripe) for view in packets(shelf.season)] == [(None, None)]


def test_within_one_list_too_a_later_packet_fills_in_the_variety(shelf):
    shelf.add(SeedEntry("Cinder Lantern", lot="1"), SeedEntry("Cinder Lantern", "habanero", "2"))
    assert len(shelf.season.facts(Variety)) == 1
    assert [view.crop for view in packets(shelf.season)] == ["habanero", "habanero"]


def test_what_was_known_of_a_variety_is_not_overwritten_by_another_packet(shelf):
    shelf.add(CINDER)
    shelf.add(SeedEntry("Cinder Lantern", "habanero", "27-02", days_to_ripe=90))
    assert {view.days_to_ripe for view in packets(shelf.season)} == {100}


def test_a_tomato_and_a_pepper_of_one_name_are_two_varieties(shelf):
    shelf.add(SeedEntry("Black Cherry", "tomato-cherry"), SeedEntry("Black Cherry", "cherry-pepper"))
    assert sorted(view.crop for view in packets(shelf.season)) == ["cherry-pepper", "tomato-cherry"]


def test_a_species_and_a_type_of_it_are_no_two_varieties(shelf):
    shelf.add(SeedEntry("Cinder Lantern", "habanero", "1"))
    shelf.add(SeedEntry("Cinder Lantern", "capsicum-chinense", "2"))
    assert [view.crop for view in packets(shelf.season)] == ["habanero", "habanero"]


@pytest.mark.parametrize("name", ["", "   ", "--", "…"])
def test_a_packet_without_a_name_is_refused_with_the_whole_list(shelf, name):
    with pytest.raises(RefusedError, match=r"^A packet needs the name of its variety.*\.$"):
        shelf.add(CINDER, SeedEntry(name))
    assert packets(shelf.season) == []


def test_a_germination_that_cannot_be_is_refused_by_the_ledger(shelf):
    with pytest.raises(BadFactError, match="0 to 100 %"):
        shelf.add(SeedEntry("Cinder Lantern", germination=1.2))
    assert shelf.ledger.facts() == []


def test_seeds_left_are_those_that_came_less_those_sown(shelf):
    shelf.add(CINDER)
    tray, cinder = shelf.tray(), shelf.packet("Cinder Lantern", "26-01")
    shelf.do(sow(shelf.season, cinder.key, [SpotKey(tray.key, 0, column) for column in range(5)], DAY, 2))
    assert (shelf.packet("Cinder Lantern", "26-01").used, shelf.packet("Cinder Lantern", "26-01").left) == (
        10,
        30,
    )
    shelf.undo()
    assert shelf.packet("Cinder Lantern", "26-01").left == 40


def test_seeds_nobody_counted_are_not_known_rather_than_none(shelf):
    shelf.add(SeedEntry("Cinder Lantern"))
    assert shelf.packet("Cinder Lantern").left is None


# correcting


def test_a_correction_replaces_the_packet_and_can_be_taken_back(shelf):
    shelf.add(CINDER)
    shelf.correct(shelf.packet("Cinder Lantern", "26-01"), seeds=38, packed=2025)
    assert shelf.packet("Cinder Lantern", "26-01").entry == SeedEntry(
        "Cinder Lantern", "habanero", "26-01", 2025, 38, 0.85, 100
    )
    shelf.undo()
    assert entries_of(shelf.season) == [CINDER]


def test_a_correction_that_changes_nothing_writes_nothing(shelf):
    shelf.add(CINDER)
    view = shelf.packet("Cinder Lantern", "26-01")
    assert deeds.correct_packet(shelf.season, view.key, CINDER).empty


def test_a_correction_writes_only_what_differs(shelf):
    shelf.add(CINDER)
    proposal = shelf.correct(shelf.packet("Cinder Lantern", "26-01"), lot="26-02")
    assert [fact.kind for fact in proposal.record] == ["packet"]


def test_a_misspelt_name_is_put_right_on_every_packet_of_the_variety(shelf):
    shelf.add(SeedEntry("Cindr Lantern", lot="1"), SeedEntry("Cindr Lantern", lot="2"))
    shelf.correct(shelf.packet("Cindr Lantern", "1"), name="Cinder Lantern")
    assert [view.name for view in packets(shelf.season)] == ["Cinder Lantern", "Cinder Lantern"]


def test_a_packet_given_the_name_of_another_variety_goes_to_that_variety(shelf):
    shelf.add(CINDER, SeedEntry("Cindr Lantern", lot="27-01"))
    shelf.correct(shelf.packet("Cindr Lantern", "27-01"), name="Cinder Lantern")
    assert [fact.name for fact in varieties(shelf.season).values()] == ["Cinder Lantern"]
    assert [view.crop for view in packets(shelf.season)] == ["habanero", "habanero"]
    shelf.undo()
    assert sorted(fact.name for fact in varieties(shelf.season).values()) == [
        "Cinder Lantern",
        "Cindr Lantern",
    ]


def test_a_packet_cannot_have_held_fewer_seeds_than_are_sown(shelf):
    shelf.add(CINDER)
    tray, cinder = shelf.tray(), shelf.packet("Cinder Lantern", "26-01")
    shelf.do(sow(shelf.season, cinder.key, [SpotKey(tray.key, 0, 0)], DAY, 3))
    with pytest.raises(RefusedError, match="3 seeds of Cinder Lantern are sown"):
        shelf.correct(cinder, seeds=2)
    assert shelf.packet("Cinder Lantern", "26-01").entry == CINDER


def test_a_sown_packet_can_be_corrected_and_stays_the_packet_that_was_sown(shelf):
    shelf.add(CINDER)
    tray, cinder = shelf.tray(), shelf.packet("Cinder Lantern", "26-01")
    key = SpotKey(tray.key, 0, 0)
    shelf.do(sow(shelf.season, cinder.key, [key], DAY))
    shelf.correct(cinder, lot="26-09")
    assert shelf.season.spot(key).packet == shelf.packet("Cinder Lantern", "26-09").key
    assert shelf.packet("Cinder Lantern", "26-09").used == 1


# striking out


def test_a_packet_struck_out_takes_a_variety_without_packets_along(shelf):
    shelf.add(CINDER)
    shelf.do(deeds.remove_packet(shelf.season, shelf.packet("Cinder Lantern", "26-01").key))
    assert (packets(shelf.season), varieties(shelf.season)) == ([], {})
    shelf.undo()
    assert entries_of(shelf.season) == [CINDER]


def test_a_variety_with_another_packet_stays(shelf):
    shelf.add(CINDER, SeedEntry("Cinder Lantern", lot="25-07"))
    shelf.do(deeds.remove_packet(shelf.season, shelf.packet("Cinder Lantern", "25-07").key))
    assert entries_of(shelf.season) == [CINDER]


def test_a_packet_in_use_stays_in_the_box(shelf):
    shelf.add(CINDER)
    tray, cinder = shelf.tray(), shelf.packet("Cinder Lantern", "26-01")
    shelf.do(sow(shelf.season, cinder.key, [SpotKey(tray.key, 0, 0)], DAY))
    with pytest.raises(RefusedError, match="a packet in use stays in the seed box"):
        deeds.remove_packet(shelf.season, cinder.key)


def test_a_packet_that_is_gone_is_refused_in_a_sentence(shelf):
    for ask in (
        lambda: deeds.remove_packet(shelf.season, "x"),
        lambda: deeds.correct_packet(shelf.season, "x", CINDER),
    ):
        with pytest.raises(RefusedError, match="not in the seed box any more"):
            ask()


# telling packets that are there already


def test_a_list_brought_in_twice_is_known_row_by_row(shelf):
    rows = [CINDER, SeedEntry("Brass Bell", lot="26-02"), SeedEntry("Brass Bell", lot="26-03")]
    shelf.add(*rows)
    assert already_there(shelf.season, rows) == [True, True, True]


def test_another_lot_or_without_lots_another_year_is_another_packet(shelf):
    shelf.add(CINDER, SeedEntry("Brass Bell", packed=2025))
    asked = [
        SeedEntry("cinder lantern", lot=" 26-01 "),
        SeedEntry("Cinder Lantern", lot="27-01"),
        SeedEntry("Brass Bell", packed=2025),
        SeedEntry("Brass Bell", packed=2026),
    ]
    assert already_there(shelf.season, asked) == [True, False, True, False]


def test_one_packet_in_the_box_stands_for_one_in_the_list(shelf):
    shelf.add(CINDER)
    assert already_there(shelf.season, [CINDER, CINDER]) == [True, False]


# trays and racks


def test_a_tray_takes_the_next_free_letter_and_a_rack_the_next_number(shelf):
    assert shelf.tray(name="").name == "Tray A"
    assert shelf.tray(name=" ").name == "Tray B"
    assert shelf.tray(name="", form="rack").name == "Rack 1"
    assert shelf.tray(name="Rack 7", form="rack").name == "Rack 7"
    assert deeds.next_name(shelf.season, "rack") == "Rack 8"
    assert deeds.next_name(shelf.season, "tray") == "Tray C"


def test_after_tray_z_comes_tray_aa(shelf):
    for _ in range(26):
        shelf.tray(name="", rows=1, columns=1)
    assert deeds.next_name(shelf.season, "tray") == "Tray AA"


def test_a_name_in_use_is_refused_whatever_its_capitals(shelf):
    shelf.tray()
    with pytest.raises(RefusedError, match="tray a is in use already"):
        shelf.tray(name="tray a")


def test_the_name_of_a_tray_put_away_is_free_again(shelf):
    first = shelf.tray()
    shelf.do(deeds.retire_holder(shelf.season, first.key, DAY))
    assert shelf.tray().key != first.key


@pytest.mark.parametrize(("rows", "columns"), [(0, 12), (6, 0), (101, 1), (1, 101)])
def test_a_tray_without_cells_or_past_all_bounds_is_refused(shelf, rows, columns):
    with pytest.raises(RefusedError, match="1 to 100 rows and columns are allowed"):
        shelf.tray(rows=rows, columns=columns)
    assert shelf.season.holders() == []


def test_a_tray_stands_where_it_was_put_and_is_as_warm(shelf):
    tray = shelf.tray(place=" heat mat ", mix_c=27.0, cell_ml=43.0)
    assert (tray.place, tray.mix_c, tray.cell_ml) == ("heat mat", 27.0, 43.0)
    shelf.do(deeds.place_holder(shelf.season, tray.key, "shelf 1", 24.0, DAY + timedelta(days=9)))
    assert (shelf.season.holder(tray.key).place, shelf.season.holder(tray.key).mix_c) == ("shelf 1", 24.0)
    shelf.undo()
    assert shelf.season.holder(tray.key).place == "heat mat"


def test_the_last_word_on_where_a_tray_stands_counts_on_a_clock_put_back(shelf):
    tray = shelf.tray(place="heat mat", mix_c=27.0)
    shelf.do(deeds.place_holder(shelf.season, tray.key, "shelf 1", 24.0, DAY - timedelta(days=3)))
    assert shelf.season.holder(tray.key).place == "shelf 1"


def test_a_tray_left_where_it_stands_writes_nothing(shelf):
    tray = shelf.tray(place="shelf 1", mix_c=24.0)
    assert deeds.place_holder(shelf.season, tray.key, "shelf 1 ", 24.0, DAY).empty


def test_only_an_emptied_tray_is_put_away(shelf):
    shelf.add(CINDER)
    tray, cinder = shelf.tray(), shelf.packet("Cinder Lantern", "26-01")
    key = SpotKey(tray.key, 0, 0)
    shelf.do(sow(shelf.season, cinder.key, [key], DAY))
    with pytest.raises(RefusedError, match="still holds seeds or seedlings"):
        deeds.retire_holder(shelf.season, tray.key, DAY)
    shelf.do(mark_lost(shelf.season, [key], DAY))
    shelf.do(deeds.retire_holder(shelf.season, tray.key, DAY))
    assert shelf.season.holders() == []


def test_a_tray_that_is_out_is_brought_in_before_it_is_put_away(shelf):
    shelf.add(CINDER)
    tray, cinder = shelf.tray(), shelf.packet("Cinder Lantern", "26-01")
    key = SpotKey(tray.key, 0, 0)
    shelf.do(sow(shelf.season, cinder.key, [key], DAY))
    shelf.do(mark_up(shelf.season, [key], DAY))
    shelf.do(start_hardening(shelf.season, tray.key, DAY))
    shelf.do(go_out(shelf.season, tray.key, _moment(DAY)))
    shelf.do(mark_lost(shelf.season, [key], DAY))
    with pytest.raises(RefusedError, match="is out; bring it in first"):
        deeds.retire_holder(shelf.season, tray.key, DAY)


def _moment(day):
    return datetime(day.year, day.month, day.day, 10, tzinfo=UTC)


# the place and its weather


def test_the_place_last_set_counts_also_on_a_clock_put_back(shelf):
    shelf.do(deeds.set_place("Ridge Lane", 46.4, 16.0, "Europe/Ljubljana", DAY))
    earlier = DAY - timedelta(days=400)
    before = shelf.season.latest(PlaceSet)
    shelf.do(deeds.set_place("Mill Yard", -37.8, 144.9, "Australia/Melbourne", earlier, before=before))
    assert (place_of(shelf.season).name, place_of(shelf.season).southern) == ("Mill Yard", True)


def test_setting_the_same_place_or_units_again_writes_nothing(shelf):
    shelf.do(deeds.set_place("Ridge Lane", 46.4, 16.0, "Europe/Ljubljana", DAY))
    shelf.do(deeds.set_units("f", "floz", DAY))
    later = DAY + timedelta(days=1)
    place, units = shelf.season.latest(PlaceSet), shelf.season.latest(UnitsSet)
    assert deeds.set_place(" Ridge  Lane ", 46.4, 16.0, "Europe/Ljubljana", later, before=place).empty
    assert deeds.set_units("f", "floz", later, before=units).empty


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (("", 46.4, 16.0, "Europe/Ljubljana"), "needs a name"),
        (("Ridge Lane", 91.0, 16.0, "Europe/Ljubljana"), "-90 to 90"),
        (("Ridge Lane", float("nan"), 16.0, "Europe/Ljubljana"), "a number is allowed"),
        (("Ridge Lane", 46.4, 181.0, "Europe/Ljubljana"), "-180 to 180"),
        (("Ridge Lane", 46.4, 16.0, "Ridge/Lane"), "time zone 'Ridge/Lane'"),
        (("Ridge Lane", 46.4, 16.0, ""), "time zone ''"),
    ],
)
def test_a_place_that_cannot_be_is_refused(shelf, place, words):
    with pytest.raises((RefusedError, BadFactError), match=words):
        shelf.do(deeds.set_place(*place, DAY))
    assert not place_of(shelf.season).known


def days_from(first, count, tmin=3.0):
    return tuple(WeatherDay(first + timedelta(days=place), tmin, tmin + 9) for place in range(count))


def test_weather_brought_in_later_wins_where_records_overlap(shelf):
    first = date(2020, 1, 1)
    shelf.do(deeds.add_weather("old.csv", "", days_from(first, 10, 1.0), DAY))
    known = shelf.season.facts(WeatherRecord)
    shelf.do(deeds.add_weather("new.csv", "", days_from(first, 5, 2.0), DAY - timedelta(days=9), known=known))
    days = weather_days(shelf.season)
    assert [days[first + timedelta(days=place)].tmin_c for place in (0, 4, 5, 9)] == [2.0, 2.0, 1.0, 1.0]


def test_the_same_weather_is_not_brought_in_twice(shelf):
    days = days_from(date(2020, 1, 1), 10)
    shelf.do(deeds.add_weather("first.csv", "S1", days, DAY))
    with pytest.raises(RefusedError, match=r"brought in already, from first\.csv"):
        deeds.add_weather("again.csv", "S1", days, DAY, known=shelf.season.facts(WeatherRecord))


def test_a_weather_record_struck_out_uncovers_the_one_before_and_comes_back(shelf):
    first = date(2020, 1, 1)
    shelf.do(deeds.add_weather("old.csv", "", days_from(first, 10, 1.0), DAY))
    shelf.do(deeds.add_weather("new.csv", "", days_from(first, 10, 2.0), DAY))
    new = shelf.season.facts(WeatherRecord)[-1]
    shelf.do(deeds.strike_weather(shelf.season, new.id))
    assert weather_days(shelf.season)[first].tmin_c == 1.0
    with pytest.raises(RefusedError, match="not in the ledger any more"):
        deeds.strike_weather(shelf.season, new.id)
    shelf.undo()
    assert weather_days(shelf.season)[first].tmin_c == 2.0


def test_after_any_acts_and_undoing_the_season_is_as_read_anew(shelf):
    shelf.add(CINDER, SeedEntry("Brass Bell", "bell", "26-02", 2026, 60))
    tray = shelf.tray()
    bell = shelf.packet("Brass Bell", "26-02")
    shelf.do(sow(shelf.season, bell.key, [SpotKey(tray.key, 1, 1)], DAY, 2))
    shelf.correct(bell, name="Cinder Lantern", lot="26-03")
    shelf.correct(shelf.packet("Cinder Lantern", "26-01"), seeds=12, days_to_ripe=None)
    shelf.undo()
    anew = Season(shelf.ledger.entries(), the_guide())
    assert packets(anew) == packets(shelf.season)
    assert varieties(anew) == varieties(shelf.season)
    assert anew.spots(tray.key) == shelf.season.spots(tray.key)
