"""Each layer stands without the ones above it, and starting waits for no heavy library."""

import os
import subprocess
import sys

import pytest

EVERYTHING_BELOW_THE_DESK = """
import importlib, pkgutil, sys
import greenroom
names = [
    found.name
    for found in pkgutil.walk_packages(greenroom.__path__, "greenroom.")
    if not found.name.startswith(("greenroom.desk", "greenroom.app", "greenroom.__main__"))
]
for name in names:
    importlib.import_module(name)
qt = {"PySide6", "shiboken6", "pyqtgraph"}
print(len(names))
print(*sorted(name for name in sys.modules if name.partition(".")[0] in qt))
"""

FIRST_PAGE = """
import gc, sys
from greenroom import app
start = app.load_start()
application = start.make_application()
with start.demo_ledger(still=True) as keeper:
    window = start.make_window(keeper)
    print(window.current)
    print(gc.isenabled())
    print(*sorted({name.partition(".")[0] for name in sys.modules} & set(sys.argv[1:])))
    window.close()
"""

SLOW_TO_LOAD = ("scipy", "pandas", "pyqtgraph", "alembic", "pvlib", "matplotlib", "lifelines", "statsmodels")


def run(script, *arguments):
    environment = os.environ | {"QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run(
        [sys.executable, "-c", script, *arguments],
        capture_output=True,
        text=True,
        env=environment,
        check=False,
        timeout=100,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.splitlines()


def test_nothing_below_the_desk_loads_qt():
    modules, *loaded = run(EVERYTHING_BELOW_THE_DESK)
    assert int(modules) > 60
    assert "".join(loaded).strip() == ""


def test_the_first_page_is_made_before_any_slow_library_is_loaded():
    page, garbage_is_looked_for, loaded = run(FIRST_PAGE, *SLOW_TO_LOAD)
    assert (page, garbage_is_looked_for) == ("grow", "True")
    assert loaded == ""


@pytest.mark.parametrize("command", ["--version", "--help"])
def test_asking_for_a_line_of_text_loads_no_window(command):
    script = (
        "import sys\nfrom greenroom.app import parse\n"
        "try:\n    parse([sys.argv[1]])\nexcept SystemExit as left:\n    print(left.code)\n"
        "print('PySide6' in sys.modules)\n"
    )
    *_, code, loaded = run(script, command)
    assert (code, loaded) == ("0", "False")
