"""Seasons that the tests of the round stand on: six seedlings in a tray, and the same set out in a bed."""

from datetime import UTC, date, datetime, timedelta

from greenroom.ledger.facts import PlaceSet, WeatherDay, WeatherRecord
from greenroom.season import deeds_plot, deeds_spots
from greenroom.season.deeds_plot import Rectangle
from greenroom.season.proposal import Proposal
from greenroom.season.round import round_of
from greenroom.season.spots import SpotKey
from tests.season.told import SOWN_ON, Told

UP_ON = SOWN_ON + timedelta(8)
CELLS = [SpotKey("Tray A", 0, column) for column in range(6)]
OUT_ON = date(2027, 5, 24)


def sown():
    """Six annuums sown in a tray on shelf 1, on UTC in the north."""
    told = Told()
    place = PlaceSet(day=SOWN_ON, name="Ridge Lane", latitude=46.0, longitude=0.0, zone="UTC")
    told.do(Proposal("set the place", (place,)))
    told.packet("Brass Bell", seeds=8)
    told.holder("Tray A", rows=1, columns=6, mix_c=25.0)
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", CELLS, SOWN_ON))
    return told


def seedlings():
    """The six up."""
    told = sown()
    told.do(deeds_spots.mark_up(told.season, CELLS, UP_ON))
    return told


def planted():
    """The six set out into a bed of six on 24 May; they show eight leaves."""
    told = seedlings()
    told.do(deeds_spots.set_leaves(told.season, CELLS, OUT_ON - timedelta(1), 8))
    told.do(deeds_plot.lay_bed(told.season, "South bed", 1, 6, Rectangle(0, 0, 3, 1), SOWN_ON))
    told.do(deeds_plot.set_out(told.season, CELLS, SpotKey(bed(told), 0, 0), OUT_ON))
    return told


def bed(told):
    return told.season.holders("bed")[0].key


def at(day, hour=9):
    return datetime(day.year, day.month, day.day, hour, tzinfo=UTC)


def jobs(told, day):
    return round_of(told.season, day, at(day))


def job(told, day, start):
    found = [one for one in jobs(told, day) if one.what.startswith(start)]
    return found[0] if found else None


def weather(told, day, **known):
    told.do(Proposal("w", (WeatherRecord(day=day, source="a file", days=(WeatherDay(day, **known),)),)))
