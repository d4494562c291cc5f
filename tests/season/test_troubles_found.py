"""Findings stay with their holder over time, and a look that found nothing counts as a look."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from greenroom.guide.troubles_reading import load_troubles
from greenroom.season.deeds_care import find
from greenroom.season.deeds_spots import mark_up, sow
from greenroom.season.jobs.job import Walk
from greenroom.season.jobs.shelf import look_jobs
from greenroom.season.proposal import RefusedError
from greenroom.season.story import glance_words
from greenroom.season.troubles_found import (
    last_look_words,
    nothing_found,
    put_down_to,
    seen_on,
    threshold_why,
)
from tests.season.told import SOWN_ON, Told, spot

TROUBLES = load_troubles()
FIRST, SECOND = date(2027, 4, 1), date(2027, 4, 8)
TRAY = "Tray A"


@pytest.fixture
def told() -> Told:
    made = Told()
    made.holder(TRAY, rows=2, columns=3)
    made.holder("Tray B", rows=2, columns=3)
    return made


def words(told: Told, holder: str = TRAY) -> list[str]:
    return [one.words for one in seen_on(told.season, holder, TROUBLES)]


def test_findings_are_told_the_latest_first_with_count_plant_and_place(told) -> None:
    season = told.season
    told.do(nothing_found(season, TRAY, FIRST))
    told.do(find(season, TRAY, SECOND, "aphids", count=12, spot=spot(TRAY, "B2"), where="undersides"))
    told.do(find(season, TRAY, SECOND, "leggy"))
    assert words(told) == ["12 aphids on B2, undersides", "tall, thin and pale", "nothing found"]
    assert words(told, "Tray B") == []


def test_a_day_with_a_finding_is_not_told_as_a_day_with_nothing(told) -> None:
    told.do(nothing_found(told.season, TRAY, SECOND))
    told.do(find(told.season, TRAY, SECOND, "thrips"))
    assert words(told) == ["thrips"]
    assert last_look_words(seen_on(told.season, TRAY, TROUBLES)) == "last looked over on 8 April"
    assert last_look_words([]) == "not looked over yet"


def test_one_plant_may_be_looked_over_by_itself(told) -> None:
    told.do(nothing_found(told.season, TRAY, FIRST, spot(TRAY, "A3")))
    assert words(told) == ["nothing found on A3"]
    with pytest.raises(RefusedError, match="Tray A has no C1"):
        nothing_found(told.season, TRAY, FIRST, spot(TRAY, "C1"))


def test_a_sign_of_older_days_is_read_as_it_was_written(told) -> None:
    told.do(find(told.season, TRAY, FIRST, "sooty-mould"))
    assert words(told) == ["sooty mould"]


def test_what_a_sign_was_put_down_to_stays_in_the_story(told) -> None:
    proposal = put_down_to(told.season, TRAY, FIRST, "curling", "broad-mites", spot(TRAY, "A1"))
    assert proposal.record[0].text == "Leaves curl or twist: put down to broad mites"
    told.do(proposal)
    assert glance_words(told.season, spot(TRAY, "A1"))
    with pytest.raises(RefusedError, match="choose one of its causes"):
        put_down_to(told.season, TRAY, FIRST, "curling", "moonlight")


def test_a_published_count_names_its_source_and_its_limits() -> None:
    why = threshold_why(TROUBLES.pests["thrips"])
    assert why is not None
    assert why.sources == ("Rettke, S. K.: Grower 101",)
    assert "look at every plant" in why.rule
    assert threshold_why(TROUBLES.pests["aphids"]) is None


def test_the_rounds_look_over_names_the_sheet_of_the_first_holder_that_is_due(told) -> None:
    told.do(sow(told.season, told.packet("Cinder", seeds=9), [spot("Tray B", "A1")], SOWN_ON))
    told.do(mark_up(told.season, [spot("Tray B", "A1")], date(2027, 3, 22)))
    walk = Walk.of(told.season, FIRST, datetime(2027, 4, 1, 8, tzinfo=UTC))
    (job,) = look_jobs(walk)
    assert (job.page, job.care) == ("grow", ("Tray B", "look"))
