"""What is printed is read back: the text, where it lies, and the codes as a scanner sees them."""

from datetime import UTC, date, datetime
from itertools import pairwise

import pytest

from greenroom.agronomy.hardening import Ramp
from greenroom.exchange.errors import Cancelled
from greenroom.exchange.paper.codes import read_code
from greenroom.exchange.paper.flow import fitting_days
from greenroom.exchange.paper.plot_sheet import plot_sheet, print_plot
from greenroom.exchange.paper.ramp_card import print_cards, ramp_card
from greenroom.exchange.paper.report import print_report, report_years, season_report
from greenroom.exchange.paper.round_sheet import print_round, print_week
from greenroom.exchange.paper.sizes import A4, LETTER, SHEETS, SizeError, sheets_of
from greenroom.exchange.paper.symbol import QUIET_MODULES, modules_of
from greenroom.exchange.paper.tags import Label, plant_tags, print_labels, tray_label, variety_tags
from greenroom.exchange.paper.tray_map import print_maps, tray_map
from greenroom.season.deeds_harden import start_hardening
from greenroom.season.deeds_plants import pick
from greenroom.season.deeds_plot import Rectangle, add_obstacle, lay_bed, set_out
from greenroom.season.deeds_shelf import SeedEntry, add_packets, make_holder
from greenroom.season.deeds_spots import mark_up, sow
from greenroom.season.packets import packets
from greenroom.season.plot import plot_of
from greenroom.season.round import the_round, week
from greenroom.season.spots import SpotKey
from greenroom.season.two_clocks import two_clocks
from tests.exchange.paper_reading import codes, codes_in, image, pages, pieces, size_mm, strokes, text_of
from tests.season.told import Told

SOWN, TODAY = date(2027, 3, 12), date(2027, 5, 14)
NOW = datetime(2027, 5, 14, 7, 54, tzinfo=UTC)
CLOSE_MM = 0.3
GREEK = "Πιπεριά Φλωρίνης"


@pytest.fixture(scope="module")
def told():
    """A tray with two varieties up, hardening; a bed turned askew with two plants; a few fruits picked."""
    world = Told()
    entries = [
        SeedEntry("Cinder Lantern", None, "26-01", 2026, 90),
        SeedEntry(GREEK, None, "26-02", 2026, 60),
    ]
    world.do(add_packets(world.season, entries, SOWN))
    world.do(make_holder(world.season, name="Tray A", form="tray", rows=6, columns=12, day=SOWN))
    tray = world.season.holders()[0].key
    cinder, greek = packets(world.season)
    for packet, columns in ((cinder, range(3)), (greek, range(3, 5))):
        cells = [SpotKey(tray, row, column) for row in range(6) for column in columns]
        world.do(sow(world.season, packet.key, cells, SOWN))
    up = [SpotKey(tray, row, column) for row in range(5) for column in range(5)]
    world.do(mark_up(world.season, up, date(2027, 3, 21)))
    world.do(lay_bed(world.season, "Long bed", 2, 8, Rectangle(1.0, 2.0, 4.0, 1.2, 10.0), SOWN))
    world.do(add_obstacle("Shed", Rectangle(7.0, 1.0, 2.5, 2.0), 2.4, SOWN))
    bed = world.season.holders("bed")[0].key
    world.do(set_out(world.season, [SpotKey(tray, 0, 0), SpotKey(tray, 1, 0)], SpotKey(bed, 0, 0), TODAY))
    world.do(start_hardening(world.season, tray, date(2027, 5, 10), Ramp()))
    world.do(pick(world.season, cinder.packet.variety, TODAY, 7, grams=83.0))
    return world.season


@pytest.fixture(scope="module")
def tray(told):
    return told.holders("tray")[0].key


@pytest.mark.parametrize("sheet", [SHEETS[1], SHEETS[3], SHEETS[7]], ids=lambda sheet: sheet.name)
def test_every_code_lies_on_its_label_and_is_read_by_a_scanner(told, tray, sheet):
    """Decoded by ZXing from the rendered page at 300 dots an inch, as coarse as printers come.

    Expected: the code's place from the sheet's own measures, ISO/IEC 18004 for the quiet zone.
    """
    labels = plant_tags(told, tray)[:3]
    start = sheet.places - 2
    printed = print_labels(labels, sheet, start)
    assert printed.pages == 2
    assert [size_mm(page) for page in pages(printed)] == [
        pytest.approx((sheet.paper.width_mm, sheet.paper.height_mm), abs=0.01)
    ] * 2
    for page, wanted in ((0, {start: labels[0], start + 1: labels[1]}), (1, {0: labels[2]})):
        found = {text: box for text, *box in codes(printed, page)}
        assert found.keys() == {label.code for label in wanted.values()}
        for place, label in wanted.items():
            assert_code_in_place(found[label.code], sheet.place(place), label.code)


def assert_code_in_place(found, place, text):
    """The symbol, its quiet zone around it, is where the label's measures put it."""
    padding = max(1.0, min(2.0, 0.07 * place.height))
    side = min(place.height - 2 * padding, 30.0, 0.45 * (place.width - 2 * padding))
    quiet = side / (len(modules_of(text)) + 2 * QUIET_MODULES) * QUIET_MODULES
    left, top, right, foot = found
    assert left == pytest.approx(place.left + padding + quiet, abs=CLOSE_MM)
    assert top == pytest.approx(place.top + place.height / 2 - side / 2 + quiet, abs=CLOSE_MM)
    assert right - left == pytest.approx(side - 2 * quiet, abs=CLOSE_MM)
    assert foot - top == pytest.approx(side - 2 * quiet, abs=CLOSE_MM)


def test_a_tag_tells_variety_place_and_day_in_its_label(told, tray):
    sheet = sheets_of(A4)[0]
    labels = [*variety_tags(told, tray), tray_label(told, told.holder(tray))]
    printed = print_labels(labels, sheet)
    text = text_of(printed)
    for words in ("Cinder Lantern", GREEK.split()[0], "sown 12 Mar 2027", "Tray A", "6 x 12"):
        assert words in text
    assert printed.missing == frozenset()
    for _, x, y, _ in pieces(pages(printed)[0]):
        place = sheet.place(int(y // 37) * 3 + int(x // 70))
        assert place.left < x < place.left + place.width
    assert read_code(labels[0].code).sown == SOWN


HOSTILE = [
    "<script>alert(1)</script> & <b>x</b>",
    "\u202eevil \u2067right to left\u2069 שלום",
    "nul\x00 bell\x07 esc\x1b[2J\r\nnew line",
    "W" * 10_000,
    "word " * 2_000,
    "(unbalanced \\ ) %PDF-1.4 endobj",
    "",
]


@pytest.mark.parametrize("sheet", [SHEETS[0], SHEETS[3]], ids=lambda sheet: sheet.name)
def test_no_name_leaves_its_label_nor_hides_a_code(sheet):
    labels = [
        Label(name, (name, "sown 1 Mar 2027"), f"greenroom:spot/x/1/{column}")
        for column, name in enumerate(HOSTILE, start=1)
    ]
    printed = print_labels(labels, sheet)
    page = image(printed)
    found = {text for text, *_ in codes_in(page)}
    scale = 300 / 25.4
    ink = page.min(axis=2) < 250
    for place in (sheet.place(number) for number in range(sheet.places)):
        left, top = place.left * scale, place.top * scale
        right, foot = left + place.width * scale, top + place.height * scale
        # What is inside a label is not looked at again: all ink that is left would lie between labels.
        ink[int(top) + 1 : int(foot), int(left) + 1 : int(right)] = False
    assert not ink.any()
    assert found == {label.code for label in labels}
    text = text_of(printed)
    assert "<script>alert" in text.replace("\n", "")
    assert "endobj" in text or "unbalanced" in text
    assert printed.missing == {"ש", "ל", "ו", "ם"}


def test_a_place_that_a_sheet_does_not_have_is_refused(told, tray):
    for start in (-1, 24):
        with pytest.raises(SizeError, match="1 to 24 are allowed"):
            print_labels(plant_tags(told, tray), SHEETS[0], start)


def test_work_that_was_called_off_stops(told, tray):
    calls = iter([False, False, True])
    with pytest.raises(Cancelled):
        print_labels(plant_tags(told, tray), SHEETS[0], stop=lambda: next(calls))


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_the_sowing_map_shows_every_cell_by_its_sowings_number(told, tray, paper):
    printed = print_maps([tray_map(told, tray, TODAY)], paper)
    page = pages(printed)[0]
    assert size_mm(page) == pytest.approx((paper.height_mm, paper.width_mm), abs=0.01)  # on its side
    text = text_of(printed)
    for words in (
        "Sowing map: Tray A",
        "Cinder Lantern",
        GREEK,
        "26-01",
        "18 cells, 18 seeds",
        "Fri 12 March",
    ):
        assert words in text
    numbers = [piece for piece in pieces(page) if piece[0] in ("1", "2") and piece[3] == 14.0]
    assert [one[0] for one in numbers].count("1") == 18
    assert [one[0] for one in numbers].count("2") == 12
    columns = sorted({round(one[1], 1) for one in numbers if one[0] == "1"})
    wide = (paper.height_mm - 2 * 15 - 6) / 12
    assert [b - a for a, b in pairwise(columns)] == pytest.approx([min(22.0, wide)] * 2, abs=CLOSE_MM)
    assert [text for text, *_ in codes(printed)] == [f"greenroom:tray/{tray}"]


def test_the_round_has_a_box_to_tick_for_every_job(told):
    found = the_round(told, TODAY, NOW)
    printed = print_round(found, "Ridge Lane", A4)
    text = " ".join(text_of(printed).split())
    boxes = sum(count_boxes(page, 3.6) for page in pages(printed))
    assert found.jobs
    assert boxes == len(found.jobs)
    for job in found.jobs:
        assert job.what.split(",")[0] in text
        assert job.where in text


def count_boxes(page, side):
    """How many squares of a side are drawn, as paths of four lines."""
    lines = [values for operator, values in strokes(page) if operator in ("m", "l")]
    return sum(
        abs(b[0] - a[0] - side) < 0.01 and abs(a[1] - b[1]) < 0.01 and abs(b[1] - c[1] - side) < 0.01
        for a, b, c in zip(lines, lines[1:], lines[2:], strict=False)
    )


def test_the_week_has_each_day_and_a_box_for_each_line(told):
    days = week(told, TODAY, NOW)
    printed = print_week(days, "Ridge Lane", TODAY, LETTER)
    text = text_of(printed)
    assert all(f"{one.day.day} May" in text for one in days)
    lines = sum(len(one.lines) for one in days)
    assert sum(count_boxes(page, 3.6) for page in pages(printed)) == lines > 0


def test_the_hardening_card_has_the_minutes_of_both_clocks_day_by_day(told, tray):
    card = ramp_card(told, tray, TODAY, NOW)
    printed = print_cards([card], A4)
    ahead = two_clocks(told, tray, TODAY, NOW).ahead
    rows = {}
    for text, _x, y, _size in pieces(pages(printed)[0]):
        rows.setdefault(round(y, 1), []).append(text)
    table = {row[0]: row for row in rows.values()}
    for plan in ahead:
        day = f"{plan.date:%a} {plan.date.day} May"
        if plan.date.month == 5:
            assert table[day][1:3] == [str(plan.sun_minutes), str(plan.shade_minutes)]
    assert count_boxes(pages(printed)[0], 3.6) == len(card.days)
    assert ramp_card(told, told.holders("bed")[0].key, TODAY, NOW) is None


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_the_plan_of_the_plot_is_to_scale_with_north_up(told, paper):
    sheet = plot_sheet(told, TODAY, "Ridge Lane")
    printed = print_plot(sheet, paper)
    page, text = pages(printed)[0], text_of(printed)
    scale = int(text.split("scale 1:")[1].split()[0])
    bed = plot_of(told).beds[0]
    drawn = [values for operator, values in strokes(page) if operator in ("m", "l")]
    west, south = bed.corners[0]
    shape = [((x - west) * 1000 / scale, (y - south) * 1000 / scale) for x, y in bed.corners]
    assert any(matches(drawn[place : place + 4], shape) for place in range(len(drawn) - 3))
    told_small = [one[0] for one in pieces(page) if one[3] == 8.0]
    metres = float(told_small[told_small.index("0") + 2])  # the bar says 0, its half and its whole
    half = metres / 2 * 1000 / scale  # the bar is drawn in two halves
    assert any(abs(b[0] - a[0] - half) < CLOSE_MM and a[1] == b[1] for a, b in pairwise(drawn) if len(b) == 2)
    assert "N" in text.split()
    assert "Shed, 2.4 m high" in text
    assert "x 2" in text


def matches(drawn, shape):
    """Whether four corners drawn lie to each other as those of a shape do, north being up."""
    x, y = drawn[0]
    return len(drawn) == 4 and all(
        abs(a - x - dx) < CLOSE_MM and abs(b - y - dy) < CLOSE_MM
        for (a, b), (dx, dy) in zip(drawn, shape, strict=True)
    )


def test_the_season_report_counts_what_was_sown_came_up_stands_and_was_picked(told):
    report = season_report(told, TODAY)
    printed = print_report(report, LETTER)
    text = text_of(printed)
    assert "2 varieties · 30 seeds sown · 25 up (83%) · 25 standing · 7 fruits picked" in text
    for words in (GREEK, "15 of 18, 83%", "10 of 12, 83%", "83 g", "Up, by tray", "Picked"):
        assert words in text
    assert all(len(page.images) == 0 for page in pages(printed))  # charts are lines, not dots


def test_a_season_past_is_told_by_itself(told):
    """Expected: what was done, counted by hand; the plants of 2027 are none of the season before."""
    world = Told()
    world.do(add_packets(world.season, [SeedEntry("Brass Bell", None, "25-01", 2025, 90)], date(2026, 1, 2)))
    packet = packets(world.season)[0].packet
    for name, day in (("Old", date(2026, 3, 2)), ("New", date(2026, 12, 20))):
        world.do(make_holder(world.season, name=name, form="tray", rows=2, columns=3, day=day))
        holder = next(one.key for one in world.season.holders() if one.name == name)
        cells = [SpotKey(holder, row, column) for row in range(2) for column in range(3)]
        world.do(sow(world.season, packet.packet, cells, day))
        world.do(mark_up(world.season, cells[:4], date(day.year, day.month, day.day + 9)))
    world.do(pick(world.season, packet.variety, date(2026, 9, 1), 11, grams=120.0))
    assert report_years(world.season, TODAY) == [2027, 2026]
    past, now = (season_report(world.season, TODAY, year) for year in (2026, 2027))
    text = text_of(print_report(past, A4))
    assert "1 variety · 6 seeds sown · 4 up (67%) · 11 fruits picked" in text
    assert "1 variety · 6 seeds sown · 4 up (67%) · 8 standing" in text_of(print_report(now, A4))


def test_the_typeface_is_within_the_file(told):
    """ISO 32000-1, 9.9: an embedded TrueType face stands under FontFile2."""
    printed = print_report(season_report(told, TODAY), A4)
    fonts = [font.get_object() for page in pages(printed) for font in page["/Resources"]["/Font"].values()]
    assert fonts
    assert all("/FontFile2" in font["/FontDescriptor"] for font in fonts)
    assert {font["/BaseFont"].split("+")[-1] for font in fonts} <= {"Inter-Regular", "Inter-SemiBold"}


def test_an_empty_season_is_told_and_not_failed_on():
    season = Told().season
    assert "Nothing was sown or picked" in text_of(print_report(season_report(season, TODAY), A4))
    assert "Nothing is to be done" in text_of(print_round(the_round(season, TODAY, NOW), "", A4))
    assert print_plot(plot_sheet(season, TODAY, ""), A4).pages == 1
    assert print_labels([], SHEETS[0]).pages == 1


def test_days_of_one_column_all_have_short_months_where_one_long_one_has_no_room():
    long, short = date(2027, 9, 29), date(2027, 5, 14)
    assert [fitting_days([short], 25.0)(day) for day in (short,)] == ["Fri 14 May"]
    told = fitting_days([short, long], 25.0)
    assert [told(day) for day in (short, long)] == ["Fri 14 May", "Wed 29 Sep"]
    assert fitting_days([short, long], 60.0)(long) == "Wed 29 September"
