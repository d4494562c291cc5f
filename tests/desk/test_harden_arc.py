"""The arc shows where the sun stands, and sun and shade by shape as well as by colour."""

from datetime import timedelta

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QLabel

from greenroom.desk.harden.arc_words import described
from greenroom.desk.harden.sun_arc import ArcScene, SunArc
from greenroom.desk.look import DARK, LIGHT, Look
from greenroom.season.outings import Stretch
from greenroom.season.place import Place
from greenroom.season.sun_day import sun_day
from tests.desk.harden_door import NO_SCREEN, TODAY, ZONE, at

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)

PLACE = Place("Ridge Lane", 46.4, 16.0, ZONE)
NORTH = Place("North", 69.65, 18.96, ZONE)


@pytest.fixture
def arc(qtbot):
    made = SunArc(Look(dark=False), QLabel("of 110 minutes of sun"))
    qtbot.addWidget(made)
    made.resize(480, 220)
    made.show()
    return made


def scene(clock="9:54", stretches=(), due=None, place=PLACE, day=TODAY):
    return ArcScene(sun_day(place, day), place, at(clock, day), tuple(stretches), due, "99")


def colour_at(arc, point, by=(0, 0)):
    picture = arc.grab().toImage()
    return picture.pixelColor(QPoint(int(point.x()) + by[0], int(point.y()) + by[1]))


def near(colour, wanted, tolerance=40):
    other = QColor(wanted)
    return all(abs(a - b) <= tolerance for a, b in zip(colour.getRgb()[:3], other.getRgb()[:3], strict=True))


def test_the_sun_stands_on_its_path_where_it_is_now(arc):
    arc.show_scene(scene(), "")
    assert near(colour_at(arc, arc.point(at("9:54"))), LIGHT.sun)
    assert near(colour_at(arc, arc.point(at("16:00"))), LIGHT.edge)


def test_before_sunrise_and_after_sunset_no_sun_stands_on_the_path(arc):
    for clock in ("4:00", "22:00"):
        arc.show_scene(scene(clock), "")
        assert not near(colour_at(arc, arc.point(at(clock)), (0, -8)), LIGHT.sun, 20)


def test_a_stretch_in_the_sun_is_solid_and_one_in_shade_is_barred(arc):
    sun = Stretch("sun", at("8:00"), at("11:00"))
    shade = Stretch("shade", at("11:00"), at("15:00"))
    arc.show_scene(scene("17:00", (sun, shade)), "")
    moments = [at("8:20") + timedelta(minutes=minutes) for minutes in range(0, 140, 4)]
    assert all(near(colour_at(arc, arc.point(moment)), LIGHT.sun) for moment in moments)
    barred = [at("11:20") + timedelta(minutes=minutes) for minutes in range(0, 200, 3)]
    colours = [colour_at(arc, arc.point(moment)) for moment in barred]
    plum = sum(near(colour, LIGHT.plum, 90) for colour in colours)
    assert 0 < plum < len(colours)
    assert any(near(colour, LIGHT.card, 60) for colour in colours)


def test_what_is_to_come_to_the_planned_minutes_is_marked(arc):
    moments = [at("10:30") + timedelta(minutes=minutes) for minutes in range(0, 120, 2)]
    arc.show_scene(scene(), "")
    without = [colour_at(arc, arc.point(moment)).rgb() for moment in moments]
    arc.show_scene(scene(due=at("13:00")), "")
    dotted = [colour_at(arc, arc.point(moment)).rgb() for moment in moments]
    changed = sum(a != b for a, b in zip(without, dotted, strict=True))
    assert 0 < changed < len(moments)


def test_the_counter_stays_under_the_path_however_large_the_arc(arc):
    """No pixel of the path may be written over: the counter is dark, the path light."""
    for size in ((460, 190), (480, 220), (900, 420)):
        arc.resize(*size)
        arc.show_scene(scene("20:00"), "")
        sun = arc.scene.sun
        moments = [sun.rise + (sun.fall - sun.rise) * part / 60 for part in range(1, 60)]
        picture = arc.grab().toImage()
        for moment in moments:
            if abs(moment - at("20:00")) > timedelta(minutes=50):
                point = arc.point(moment).toPoint()
                assert near(picture.pixelColor(point), LIGHT.edge, 30), (size, moment)


def test_the_arc_follows_the_theme(arc):
    arc.show_scene(scene(), "")
    arc._look.set_dark(True)
    assert near(colour_at(arc, arc.point(at("9:54"))), DARK.sun)


def test_a_day_without_sunset_and_one_without_sunrise_are_drawn_and_told(arc):
    summer = TODAY.replace(month=6, day=21)
    winter = TODAY.replace(month=12, day=21)
    for day, words in ((summer, "does not set"), (winter, "does not rise")):
        shown = scene(place=NORTH, day=day)
        arc.show_scene(shown, "")
        assert not arc.grab().isNull()
        assert words in described(shown, "Rack 1", [])


def test_the_arc_is_told_in_words(arc):
    """Height, sunrise and sunset: pvlib 0.16.1, solar position algorithm of Reda and Andreas 2004."""
    stretches = (Stretch("sun", at("8:10"), at("9:20")), Stretch("shade", at("9:20"), at("9:54")))
    shown = scene(stretches=stretches)
    told = described(shown, "Rack 1", ["70 of 110 minutes of sun", "out since 8:10, in shade", ""])
    assert told == (
        "Rack 1: 70 of 110 minutes of sun, out since 8:10, in shade. In sun from 8:10 to 9:20. "
        "In shade from 9:20 to now. The sun stands 44 degrees high; it rose at 5:24 and sets at 20:21."
    )
    arc.show_scene(shown, told)
    assert arc.accessibleName() == "99 minutes of sun"
    assert arc.accessibleDescription() == told


def test_without_a_place_the_counter_stands_alone(arc):
    arc.show_scene(ArcScene(None, Place(), at("9:54"), (), None, "30"), "Rack 1: 30 of 110 minutes of sun.")
    picture = arc.grab().toImage()
    dark = sum(
        near(picture.pixelColor(x, y), LIGHT.ink, 30) for x in range(180, 300, 2) for y in range(60, 200, 2)
    )
    assert dark > 100
