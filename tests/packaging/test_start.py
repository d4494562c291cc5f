"""One command starts greenroom, or says in one sentence why it cannot."""

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parents[2]
PICTURES = Path("pictures")
NAMES_A_SCREEN = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")

on_posix = pytest.mark.skipif(os.name == "nt", reason="the small checkout's programs are shell scripts")


@pytest.fixture
def launch(script):
    return script("_launch")


@pytest.fixture
def refusal(script):
    return script("_python").refusal


def run(checkout, name, *arguments, **environ):
    kept = {key: value for key, value in os.environ.items() if key not in NAMES_A_SCREEN}
    command = [sys.executable, str(checkout / "packaging" / name), *arguments]
    return subprocess.run(
        command, env=kept | environ, capture_output=True, text=True, check=False, timeout=60
    )


@pytest.mark.parametrize("version", [(2, 7, 18), (3, 9, 18), (3, 10, 13)])
def test_an_older_python_is_refused_in_one_sentence(refusal, version):
    sentence = refusal(version)
    found = ".".join(map(str, version))
    assert sentence == f"greenroom needs Python 3.11 or newer, and this is Python {found}."


@pytest.mark.parametrize("version", [(3, 11, 0), (3, 14, 0), (4, 0, 0)])
def test_a_python_new_enough_is_not_refused(refusal, version):
    assert refusal(version) is None


def test_the_refused_version_is_the_one_the_project_states(script):
    oldest = ".".join(map(str, script("_python").OLDEST))
    assert f'requires-python = ">={oldest}"' in (CHECKOUT / "pyproject.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", ["_python.py", "start.py", "check.py"])
def test_an_older_python_can_read_as_far_as_the_sentence(name):
    """Expected: the grammar of Python 2.7, which knows none of these (its Language Reference)."""
    tree = ast.parse((CHECKOUT / "packaging" / name).read_text(encoding="ascii"))
    newer = (ast.JoinedStr, ast.AnnAssign, ast.NamedExpr, ast.Match, ast.AsyncFunctionDef, ast.Nonlocal)
    for node in ast.walk(tree):
        assert not isinstance(node, newer)
        if isinstance(node, ast.FunctionDef):
            assert node.returns is None
            assert not node.args.kwonlyargs
            assert all(argument.annotation is None for argument in node.args.args)
        if isinstance(node, ast.ImportFrom):
            assert node.module != "__future__"


@pytest.mark.parametrize(
    ("environ", "platform", "expected"),
    [
        ({}, "linux", False),
        ({"DISPLAY": ""}, "linux", False),
        ({"DISPLAY": ":0"}, "linux", True),
        ({"WAYLAND_DISPLAY": "wayland-0"}, "linux", True),
        ({"DISPLAY": ":0", "QT_QPA_PLATFORM": "offscreen"}, "linux", False),
        ({"QT_QPA_PLATFORM": "xcb"}, "linux", False),
        ({"QT_QPA_PLATFORM": "vnc:size=1024x768"}, "linux", True),
        ({}, "darwin", True),
        ({}, "win32", True),
    ],
)
def test_a_window_is_opened_only_where_it_can_be_seen(launch, environ, platform, expected):
    assert launch.has_screen(environ, platform) is expected


def test_with_a_screen_the_arguments_go_to_the_program_as_they_are(launch):
    chosen = launch.plan(["my.db", "--today", "2026-03-01"], screen=True)
    assert chosen.arguments == ("my.db", "--today", "2026-03-01")
    assert chosen.pictures is None


@pytest.mark.parametrize(
    ("arguments", "drawn"),
    [
        ([], ["--demo", "--pictures", "pictures"]),
        (["--demo"], ["--demo", "--pictures", "pictures"]),
        (["--today", "2026-03-01"], ["--today", "2026-03-01", "--demo", "--pictures", "pictures"]),
        (["my.db"], ["my.db", "--pictures", "pictures"]),
        (["--today", "2026-03-01", "my.db"], ["--today", "2026-03-01", "my.db", "--pictures", "pictures"]),
    ],
)
def test_without_a_screen_the_pages_are_drawn_and_a_named_ledger_is_not_replaced(launch, arguments, drawn):
    chosen = launch.plan(arguments, screen=False, pictures=PICTURES)
    assert list(chosen.arguments) == drawn
    assert chosen.pictures == PICTURES


@pytest.mark.parametrize("arguments", [["--version"], ["--demo", "--pictures", "mine"], ["--pictures=mine"]])
def test_what_needs_no_screen_is_not_changed_for_want_of_one(launch, arguments):
    chosen = launch.plan(arguments, screen=False, pictures=PICTURES)
    assert list(chosen.arguments) == arguments
    assert chosen.offscreen
    assert chosen.pictures is None


@on_posix
def test_starting_without_a_screen_says_so_and_where_the_pictures_are(small_checkout):
    pictures = small_checkout / "build" / "pictures"
    done = run(small_checkout, "start.py")
    assert done.stdout.splitlines() == [
        "There is no screen here, so greenroom draws its pages as pictures instead",
        f"greenroom --demo --pictures {pictures} on offscreen",
        f"The pictures are in {pictures}",
    ]
    assert pictures.is_dir()


@on_posix
def test_pictures_that_failed_are_not_promised(small_checkout):
    done = run(small_checkout, "start.py", ENDS_WITH="5")
    assert done.returncode == 5
    assert "The pictures are in" not in done.stdout


@on_posix
def test_the_program_is_started_with_the_arguments_given(small_checkout):
    done = run(small_checkout, "start.py", "my season.db", QT_QPA_PLATFORM="vnc")
    assert done.stdout.splitlines() == ["Starting greenroom", "greenroom my season.db on vnc"]


@on_posix
def test_the_tests_run_without_a_screen_and_their_result_is_passed_on(small_checkout):
    done = run(small_checkout, "check.py", "-q", "tests/season", QT_QPA_PLATFORM="xcb", ENDS_WITH="3")
    assert done.stdout.splitlines() == ["python -m pytest -q tests/season on offscreen"]
    assert done.returncode == 3
