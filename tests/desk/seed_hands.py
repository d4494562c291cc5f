"""What a grower's hands do on the Seed page; shared by its tests."""

from greenroom.desk.seed.page import SeedPage
from greenroom.season.deeds_shelf import SeedEntry, correct_packet
from greenroom.season.packets import packets


def open_page(qtbot, bench):
    """Return the page, shown at the smallest size."""
    made = SeedPage(bench)
    qtbot.addWidget(made)
    bench.keeper.changed.connect(made.take)
    made.resize(1024, 614)
    made.show()
    qtbot.waitExposed(made)
    made.entered()
    return made


def choose_bell(page):
    """Choose Brass Bell, told to be a bell pepper of 75 days by its packet; return its key."""
    keeper = page.bench.keeper
    key = next(view.key for view in packets(keeper.season) if view.name == "Brass Bell")
    entry = SeedEntry("Brass Bell", "bell", "26-02", 2026, 60, 0.92, 75)
    keeper.do(lambda: correct_packet(keeper.season, key, entry))
    page.table.choose(key)
    return key


def part(page, key):
    """Return what stands behind a tab of the chosen packet, opened."""
    page.panel.open_tab(key)
    return page.panel.tabs.part(key)
