"""The tables of the harvest say what the Pick page shows."""

from greenroom.exchange.tables.harvest import ahead_table, harvest_table
from greenroom.season.picking_ahead import ripe_ahead
from tests.season.demo_season import TODAY, demo_season


def test_every_variety_and_season_leaves_with_what_is_known_of_it():
    table = harvest_table(demo_season(), TODAY)
    rows = {(row[0], row[1]): dict(zip(table.headers, row, strict=True)) for row in table.rows}
    bell = rows["Brass Bell", 2026]
    assert bell["Fruit"] == bell["Picked green"] + bell["Picked turning"] + bell["Picked ripe"]
    # 3 x 8 places on 4.0 x 1.35 m: six plants have 6 x 0.225 m²
    assert bell["Ground (m²)"] == 1.35
    assert bell["Weight a square metre (g/m²)"] == round(bell["Weight in all (g)"] / 1.35, 2)
    assert rows["Brass Bell", 2025]["Plants"] is None
    assert rows["Brass Bell", 2025]["Weight a plant (g)"] is None


def test_what_is_ripe_by_when_leaves_in_its_order():
    season = demo_season()
    table = ahead_table(season, TODAY)
    assert list(table.column("variety")) == [one.name for one in ripe_ahead(season, TODAY)]
    known = [(early, usual) for _, _, _, _, early, usual, *_ in table.rows if early and usual]
    assert known
    assert all(early <= usual for early, usual in known)
