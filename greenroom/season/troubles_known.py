"""What the record of a holder already answers: water, warmth, light, feed, sun, nights, pests, days."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.guide.troubles import Question, Sign
from greenroom.ledger.facts import CoolNight, Fact, Fed, Finding, LookedOver, MixFelt, Watered
from greenroom.season.care_words import sign_shown
from greenroom.season.crops import pace_of
from greenroom.season.hardening_words import day_words, temperature_words
from greenroom.season.holders import Holder
from greenroom.season.lights import light_at
from greenroom.season.outings import Stretch, fold_outings
from greenroom.season.packets import packet_view
from greenroom.season.place import place_of, weather_days
from greenroom.season.setback_cause import dry_after_days
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.troubles import Known
from greenroom.season.two_clocks import SUN
from greenroom.speech import tr, trn

LAST_DAYS = 3
"""Days back that count as the last days for sun and nights: this program's own."""
FEED_DAYS = 14
STRONG_PPM_N = 250.0
"""Above the 150 to 250 ppm N of a constant feed (growers' text on plug production)."""
FOUND_DAYS = 14
FELT = {"wet": "wet", "moist": "even", "dry": "dry"}
PESTS = {
    "aphids": "aphids",
    "spider-mites": "mites",
    "broad-mites": "mites",
    "thrips": "thrips",
}
"""The answer to what was found that each finding gives."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of, of which day."""

    season: Season
    holder: Holder
    today: date

    def facts(self, cls: type[Fact], days: int) -> list[Fact]:
        """Return the facts of a kind about the holder in the last days, the newest last."""
        since = self.today - timedelta(days=days)
        found = (entry.fact for entry in self.season.holder_facts(self.holder.key))
        return [one for one in found if isinstance(one, cls) and since <= one.day <= self.today]


def known_answers(season: Season, holder: str, sign: Sign, today: date) -> dict[str, Known]:
    """Return the answers to the questions of a sign that the record of a holder gives, by question."""
    asked = Asked(season, season.holder(holder), today)
    found = ((one.key, _answer(asked, one)) for one in sign.questions if one.known is not None)
    return {key: known for key, known in found if known is not None}


def _answer(asked: Asked, question: Question) -> Known | None:
    """Return what the record answers to a question, or None where it tells nothing."""
    if question.known in FIGURES:
        figure = FIGURES[question.known](asked)
        return None if figure is None else Known(question.band(figure[0]), figure[1])
    found = STATES[question.known or ""](asked)
    return found if found is not None and found.answer in question.answers else None


def _mix(asked: Asked) -> Known | None:
    watered = asked.facts(Watered, 60)
    felt = asked.facts(MixFelt, 1)
    last = watered[-1].day if watered else None
    if felt and isinstance(felt[-1], MixFelt) and (last is None or felt[-1].day >= last):
        return Known(
            FELT[felt[-1].level],
            _felt_words(felt[-1]),
        )
    if last is None:
        return None
    dry = (asked.today - last).days >= dry_after_days(asked.holder.cell_ml)
    return Known("dry" if dry else "even", tr("last watered on {day}", day=day_words(last)))


def _felt_words(felt: MixFelt) -> str:
    day = day_words(felt.day)
    if felt.level == "wet":
        return tr("felt wet on {day}", day=day)
    return tr("felt dry on {day}", day=day) if felt.level == "dry" else tr("felt moist on {day}", day=day)


def _light(asked: Asked) -> Known | None:
    light = light_at(asked.season, asked.holder.place) if asked.holder.place else None
    if light is None:
        return None
    answer = "enough" if light.enough else "weak"
    return Known(
        answer,
        tr(
            "{dose:.1f} mol a day of {wanted:g} over {place}",
            dose=light.dli,
            wanted=light.target,
            place=light.place,
        ),
    )


def _fed(asked: Asked) -> Known | None:
    if not asked.season.facts(Fed):
        return None  # nobody writes feeding down here, so nothing follows from finding none
    fed = [one for one in asked.facts(Fed, FEED_DAYS) if isinstance(one, Fed)]
    if not fed:
        return Known("none", tr("no feed written down in {days} days", days=FEED_DAYS))
    most = max(one.ppm_n for one in fed)
    answer = "strong" if most > STRONG_PPM_N else "some"
    return Known(
        answer,
        trn(
            "fed {n:,} time in {days} days, up to {most:g} ppm N",
            "fed {n:,} times in {days} days, up to {most:g} ppm N",
            len(fed),
            days=FEED_DAYS,
            most=most,
        ),
    )


def _sun(asked: Asked) -> Known | None:
    if asked.holder.form == "bed":
        return Known("yes", tr("it stands outdoors"))
    zone = place_of(asked.season).zone
    outings = fold_outings(asked.season.holder_facts(asked.holder.key))
    days = [asked.today - timedelta(days=back) for back in range(LAST_DAYS + 1)]
    for day in days:
        if any(one.touches(day, zone) and _sunny(one.stretches) for one in outings):
            return Known("yes", tr("out in the sun on {day}", day=day_words(day)))
    return Known("no", tr("no sun outdoors in the last {days} days", days=LAST_DAYS)) if outings else None


def _sunny(stretches: tuple[Stretch, ...]) -> bool:
    return any(one.light == SUN for one in stretches)


def _pests(asked: Asked) -> Known | None:
    facts = sorted(_seen(asked, Finding), key=lambda one: one.day, reverse=True)
    for one in facts:
        if isinstance(one, Finding) and one.sign in PESTS:
            return Known(
                PESTS[one.sign],
                tr("{pest} found on {day}", pest=sign_shown(one.sign), day=day_words(one.day)),
            )
    looked = [one.day for one in _seen(asked, LookedOver) if asked.today - one.day <= timedelta(LAST_DAYS)]
    clean = looked and max(looked) > max((one.day for one in facts), default=date.min)
    return Known("none", tr("nothing found on {day}", day=day_words(max(looked)))) if clean else None


def _seen(asked: Asked, cls: type[Finding] | type[LookedOver]) -> Iterator[Finding | LookedOver]:
    since = asked.today - timedelta(days=FOUND_DAYS)
    for one in asked.season.facts(cls):
        if one.holder == asked.holder.key and since <= one.day <= asked.today:
            yield one


def _time(asked: Asked) -> Known | None:
    """Whether more than half of the cells that wait are past the latest day their crop takes."""
    late = [one for one in (_past(asked, key) for key in _waiting(asked)) if one is not None]
    if not late:
        return None
    answer = "late" if sum(late) * 2 > len(late) else "soon"
    return Known(
        answer,
        trn(
            "{n:,} cell of {cells} past their days",
            "{n:,} cells of {cells} past their days",
            sum(late),
            cells=len(late),
        ),
    )


def _waiting(asked: Asked) -> Iterator[SpotKey]:
    return (spot.key for spot in asked.season.spots(asked.holder.key) if spot.waiting > 0)


def _past(asked: Asked, key: SpotKey) -> bool | None:
    spot = asked.season.spot(key)
    view = packet_view(asked.season, spot.packet) if spot.packet else None
    pace = pace_of(asked.season.guide, view.crop if view else None, asked.holder.mix_c)
    if pace is None or spot.sown_on is None:
        return None
    return (asked.today - spot.sown_on).days > pace.late


def _warmth(asked: Asked) -> tuple[float, str] | None:
    mix_c = asked.holder.mix_c
    if mix_c is None:
        return None
    return mix_c, tr("mix at {temperature}", temperature=temperature_words(mix_c, place_of(asked.season)))


def _nights(asked: Asked) -> tuple[float, str] | None:
    """Return the coldest of the last nights where the holder stood [°C]."""
    lows = [one.low_c for one in asked.facts(CoolNight, LAST_DAYS) if isinstance(one, CoolNight)]
    if asked.holder.form == "bed":
        lows += _weather(asked, "tmin_c")
    if not lows:
        return None
    return min(lows), tr(
        "down to {temperature} in the last nights",
        temperature=temperature_words(min(lows), place_of(asked.season)),
    )


def _day_heat(asked: Asked) -> tuple[float, str] | None:
    """Return the hottest of the last days where the holder stood [°C]."""
    highs = _weather(asked, "tmax_c") if asked.holder.form == "bed" else []
    if not highs:
        return None
    return max(highs), tr(
        "up to {temperature} in the last days",
        temperature=temperature_words(max(highs), place_of(asked.season)),
    )


def _weather(asked: Asked, name: str) -> list[float]:
    days = weather_days(asked.season)
    last = (asked.today - timedelta(days=back) for back in range(LAST_DAYS + 1))
    found = (getattr(days[day], name) for day in last if day in days)
    return [value for value in found if value is not None]


FIGURES: dict[str | None, Callable[[Asked], tuple[float, str] | None]] = {
    "warmth": _warmth,
    "nights": _nights,
    "days": _day_heat,
}
STATES: dict[str, Callable[[Asked], Known | None]] = {
    "mix": _mix,
    "light": _light,
    "fed": _fed,
    "sun": _sun,
    "pests": _pests,
    "time": _time,
}
