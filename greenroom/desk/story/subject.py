"""Whose story the panel tells: of a plant, of its tray, rack or bed, or of its packet."""

from __future__ import annotations

from greenroom.ledger.change import Act
from greenroom.season.few_words import spot_words
from greenroom.season.hardening_words import day_words
from greenroom.season.packets import variety_name
from greenroom.season.place import Place
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.story import Line, state_words
from greenroom.season.story_deeds import About
from greenroom.season.story_life import life
from greenroom.season.story_many import holder_story, packet_story
from greenroom.speech import tr, trn

PLANTS = {"tray": tr("Cell"), "rack": tr("Pot"), "bed": tr("Plant", sense="noun")}
WHOLES = {"tray": tr("Whole tray"), "rack": tr("Whole rack"), "bed": tr("Whole bed")}
VIEWS = ("plant", "whole", "packet")


def views_of(season: Season, key: SpotKey) -> dict[str, tuple[str, About]]:
    """Return the stories that can be told from a spot: its own, its holder's, its packet's."""
    form = season.holder(key.holder).form
    found = {
        "plant": (PLANTS[form], About(spot=key)),
        "whole": (WHOLES[form], About(holder=key.holder)),
    }
    packet = season.spot(key).packet
    if packet is not None:
        found["packet"] = (tr("Packet"), About(packet=packet))
    return found


def title_of(season: Season, about: About) -> str:
    """Return what the story is of."""
    if about.spot is not None:
        return spot_words(season, about.spot)
    return season.holder(about.holder).name if about.holder else tr("Packet")


def variety_of(season: Season, about: About) -> str:
    """Return the variety of a plant or a packet; an empty text where there is none."""
    packet = season.spot(about.spot).packet if about.spot is not None else about.packet
    return variety_name(season, packet) if packet is not None else ""


def state_of(season: Season, about: About) -> str:
    """Return how it stands in a line."""
    if about.spot is not None:
        return state_words(season, about.spot)
    if about.holder is not None:
        counts = season.counts(about.holder)
        return trn(
            "{living} of {n} spot holds a living plant",
            "{living} of {n} spots hold a living plant",
            counts.spots,
            living=counts.living,
        )
    return ""


def lines_of(season: Season, about: About) -> tuple[Line, ...]:
    """Return the story."""
    if about.spot is not None:
        return life(season, about.spot)
    if about.holder is not None:
        return holder_story(season, about.holder)
    return packet_story(season, about.packet or "")


def written_words(act: Act, place: Place) -> str:
    """Return when something was written, and by whom."""
    written = place.local(act.written)
    return tr(
        "Written {day} {time} by {who}", day=day_words(written.date()), time=f"{written:%H:%M}", who=act.who
    )
