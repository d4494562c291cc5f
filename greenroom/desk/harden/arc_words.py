"""What the sun's path over the day shows, in words."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from greenroom.season.hardening_words import time_words
from greenroom.season.place import Place
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.harden.sun_arc import ArcScene


def high_words(moment: datetime, degrees: float, place: Place) -> str:
    """Return when the sun stands how high."""
    return tr("{time}, {degrees:.0f}° high", time=time_words(moment, place), degrees=degrees)


def described(scene: ArcScene, name: str, words: Sequence[str]) -> str:
    """Return a scene in words: the sun, the stretches, and what the counter shows."""
    told = ", ".join(word for word in words if word)
    parts = [f"{tr('{name}: {what}', name=name, what=told)}."]
    for stretch in scene.stretches:
        until = (
            tr("now")
            if stretch.end in (None, scene.now)
            else time_words(stretch.end or scene.now, scene.place)
        )
        since = time_words(stretch.start, scene.place)
        parts.append(
            tr("In sun from {time} to {until}.", time=since, until=until)
            if stretch.light == "sun"
            else tr("In shade from {time} to {until}.", time=since, until=until)
        )
    return " ".join([*parts, *_sun_words(scene), *_hours_words(scene)])


def _sun_words(scene: ArcScene) -> list[str]:
    sun = scene.sun
    if sun is None:
        return []
    if sun.rise is None or sun.fall is None:
        return [tr("The sun does not set today.") if sun.up else tr("The sun does not rise today.")]
    height, _ = sun.position(scene.now)
    rise, fall = time_words(sun.rise, scene.place), time_words(sun.fall, scene.place)
    if height <= 0:
        return [
            tr("The sun is below the horizon; it rose at {rise} and sets at {fall}.", rise=rise, fall=fall)
        ]
    return [
        tr(
            "The sun stands {degrees:.0f} degrees high; it rose at {rise} and sets at {fall}.",
            degrees=height,
            rise=rise,
            fall=fall,
        )
    ]


def _hours_words(scene: ArcScene) -> list[str]:
    """Return the best hours, the sun on the step and the warmth in words."""
    hours, place, said = scene.hours, scene.place, []
    if hours.best is not None:
        first, last = (time_words(one, place) for one in (hours.best.start, hours.best.end))
        said.append(tr("The best hours are {first} to {last}.", first=first, last=last))
    if hours.yard is not None:
        first, last = (time_words(one, place) for one in hours.yard)
        said.append(tr("The sun is on the step from {first} to {last}.", first=first, last=last))
    if hours.warmth:
        told = (
            tr("{temperature} at {time}", temperature=words, time=time_words(moment, place))
            for moment, words in hours.warmth
        )
        said.append(tr("Temperature: {hours}.", hours=", ".join(told)))
    return said
