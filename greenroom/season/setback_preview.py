"""What a setback would do to the plan, told before it is written down."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from greenroom.season.clock_faces import ClockFace, TwoClocks
from greenroom.season.hardening_words import ready_day_words
from greenroom.season.proposal import Proposal
from greenroom.season.state import Season
from greenroom.season.two_clocks import THIRST, two_clocks, two_clocks_if
from greenroom.speech import tr, trn


@dataclass(frozen=True, slots=True)
class Preview:
    """A holder before and after an act that is not done yet; ``lines`` tell what changes."""

    proposal: Proposal
    before: TwoClocks
    after: TwoClocks
    lines: tuple[str, ...]

    @property
    def days_later(self) -> int | None:
        """Days by which it puts ready off; None where either date is not known."""
        if self.before.ready_on is None or self.after.ready_on is None:
            return None
        return (self.after.ready_on - self.before.ready_on).days


def preview(
    season: Season, holder: str, proposal: Proposal, today: date, now: datetime, *, cause: str = ""
) -> Preview:
    """Return what any act would do to a holder that is being hardened."""
    before, after = (
        two_clocks(season, holder, today, now),
        two_clocks_if(season, holder, proposal, today, now),
    )
    if before is None or after is None:
        raise LookupError(f"the holder {holder} is not being hardened")
    return Preview(proposal, before, after, tuple(_lines(before, after, cause)))


def _lines(before: TwoClocks, after: TwoClocks, cause: str) -> list[str]:
    today = (before.sun.step, before.air.step), (after.sun.step, after.air.step)
    names, (old, new) = (tr("Sun tomorrow"), tr("Outdoors tomorrow")), (before.tomorrow, after.tomorrow)
    if today[0] != today[1]:  # it was of a day past
        names, (old, new) = (tr("Sun today"), tr("Outdoors today")), today
    lines = [
        _clock_line(names[0], before.sun, (old[0], new[0])),
        _clock_line(names[1], before.air, (old[1], new[1])),
    ]
    if cause == THIRST:
        lines.append(tr("Thirst sets no clock back."))
    if _rests_next(after) and not _rests_next(before):
        lines.append(tr("The day after is a day of rest, in."))
    lines.append(_ready_line(before.ready_on, after.ready_on))
    return lines


def _clock_line(name: str, face: ClockFace, steps: tuple[int, int]) -> str:
    old, new = (_step_words(face, step) for step in steps)
    return (
        tr("{clock}: {new}, as before.", clock=name, new=new)
        if old == new
        else tr("{clock}: {old} becomes {new}.", clock=name, old=old, new=new)
    )


def _step_words(face: ClockFace, step: int) -> str:
    if step >= face.ramp.outings:
        return tr("all steps done")
    return tr(
        "step {step} of {outings} ({minutes} minutes)",
        step=step + 1,
        outings=face.ramp.outings,
        minutes=face.ramp.doses[step],
    )


def _ready_line(old: date | None, new: date | None) -> str:
    words = [ready_day_words(day) for day in (old, new)]
    if old == new:
        return tr("Ready {day}, as before.", day=words[1])
    if old is None or new is None:
        return tr("Ready {old} becomes {new}.", old=words[0], new=words[1])
    days = (new - old).days
    if days > 0:
        return trn(
            "Ready {old} becomes {new}, {n:,} day later.",
            "Ready {old} becomes {new}, {n:,} days later.",
            days,
            old=words[0],
            new=words[1],
        )
    return trn(
        "Ready {old} becomes {new}, {n:,} day earlier.",
        "Ready {old} becomes {new}, {n:,} days earlier.",
        -days,
        old=words[0],
        new=words[1],
    )


def _rests_next(stand: TwoClocks) -> bool:
    """Whether the day after the last one settled is a day of rest."""
    return any(face.settled is not None and face.next_state.resting for face in (stand.sun, stand.air))
