"""The private environment is made once, kept in step, and never left half done."""

from dataclasses import replace

import pytest


@pytest.fixture
def environment(script):
    return script("_environment")


@pytest.fixture
def stamp(environment):
    return environment.Stamp("3.11.7", "/home/grower/greenroom", "abc", tests=False)


@pytest.fixture
def workshop(environment, monkeypatch, tmp_path):
    """An environment in an empty folder whose pip only writes down what it was asked for."""
    folder = tmp_path / ".venv"
    (tmp_path / "pyproject.toml").write_text("[project]\n")
    monkeypatch.setattr(environment, "CHECKOUT", tmp_path)
    monkeypatch.setattr(environment, "ENVIRONMENT", folder)
    monkeypatch.setattr(environment, "STAMP", folder / "installed.json")
    asked = []

    def make(_builder, where):
        program = environment.program("python")
        program.parent.mkdir(parents=True, exist_ok=True)
        program.write_text("")
        asked.append(("made", str(where)))

    monkeypatch.setattr(environment.venv.EnvBuilder, "create", make)
    monkeypatch.setattr(environment, "_pip_install", lambda *arguments: asked.append(arguments))
    return asked


def test_an_environment_that_matches_is_left_alone(environment, stamp):
    assert environment.next_step(stamp, stamp) == "ready"


def test_without_a_note_of_what_is_there_the_environment_is_made_anew(environment, stamp):
    assert environment.next_step(None, stamp) == "rebuild"


@pytest.mark.parametrize("change", [{"python": "3.12.1"}, {"checkout": "/home/grower/elsewhere"}])
def test_another_python_or_a_moved_checkout_makes_the_environment_anew(environment, stamp, change):
    assert environment.next_step(stamp, replace(stamp, **change)) == "rebuild"


def test_changed_requirements_are_installed_into_the_environment_there_is(environment, stamp):
    assert environment.next_step(stamp, replace(stamp, settings="def")) == "install"


def test_the_test_tools_are_added_when_first_wanted_and_do_not_get_in_the_way_of_starting(environment, stamp):
    with_tests = replace(stamp, tests=True)
    assert environment.next_step(stamp, with_tests) == "install"
    assert environment.next_step(with_tests, stamp) == "ready"


def test_the_hash_tells_apart_what_stands_in_which_file(environment):
    assert environment.digest([b"ab", b"c"]) != environment.digest([b"a", b"bc"])
    assert environment.digest([b"ab"]) == environment.digest([b"ab"])


def test_the_note_comes_back_as_it_was_written(environment, stamp, tmp_path):
    environment.write_stamp(tmp_path / "note", stamp)
    assert environment.read_stamp(tmp_path / "note") == stamp


@pytest.mark.parametrize("content", ["", "{", "[]", "{}", '{"python": "3.11.7", "colour": "green"}'])
def test_a_note_that_cannot_be_read_counts_as_none(environment, tmp_path, content):
    (tmp_path / "note").write_text(content)
    assert environment.read_stamp(tmp_path / "note") is None
    assert environment.read_stamp(tmp_path / "never written") is None


def test_the_second_start_installs_nothing(environment, workshop, tmp_path):
    environment.prepare(tests=False, screens={})
    assert workshop == [("made", str(tmp_path / ".venv")), ("--editable", str(tmp_path))]
    environment.prepare(tests=False, screens={})
    assert len(workshop) == 2


def test_the_tests_bring_their_tools_and_the_weather_records_without_what_those_depend_on(
    environment, workshop, tmp_path
):
    environment.prepare(tests=True, screens={})
    assert workshop[1:] == [("--editable", f"{tmp_path}[test]"), ("--no-deps", environment.WEATHER_RECORDS)]


def test_new_requirements_do_not_throw_the_test_tools_away(environment, workshop, tmp_path):
    environment.prepare(tests=True, screens={})
    (tmp_path / "pyproject.toml").write_text("[project]\nname = 'greenroom'\n")
    environment.prepare(tests=False, screens={})
    assert workshop[3:] == workshop[1:3]


def test_an_installation_that_failed_is_taken_up_again_at_the_next_start(environment, workshop, monkeypatch):
    def fail(*_arguments):
        raise environment.SetupError("no network")

    with monkeypatch.context() as broken:
        broken.setattr(environment, "_pip_install", fail)
        with pytest.raises(environment.SetupError, match="no network"):
            environment.prepare(tests=False, screens={})
    environment.prepare(tests=False, screens={})
    assert [entry[0] for entry in workshop] == ["made", "--editable"]


def test_an_environment_whose_python_has_gone_is_made_anew(environment, workshop):
    environment.prepare(tests=False, screens={})
    environment.program("python").unlink()
    environment.prepare(tests=False, screens={})
    assert [entry[0] for entry in workshop] == ["made", "--editable"] * 2


def test_a_missing_venv_is_told_with_its_package(environment, workshop, monkeypatch):
    monkeypatch.setattr(environment.importlib.util, "find_spec", lambda _name: None)
    monkeypatch.setattr(environment.sys, "version_info", (3, 11, 2))
    monkeypatch.setattr(environment._libraries, "apt_prefix", lambda: None)
    monkeypatch.setattr(environment.shutil, "which", lambda name: f"/usr/bin/{name}")
    with pytest.raises(environment.SetupError, match=r"sudo apt-get install python3\.11-venv$"):
        environment.prepare(tests=False, screens={})
    assert workshop == []


def test_system_packages_are_installed_where_that_is_allowed(environment, workshop, monkeypatch):
    there = set()

    def still_missing(libraries):
        return {name: package for name, package in libraries.items() if package not in there}

    monkeypatch.setattr(environment._libraries, "missing", still_missing)
    monkeypatch.setattr(environment._libraries, "apt_prefix", lambda: [])
    monkeypatch.setattr(environment._libraries, "install", lambda packages, _prefix: there.update(packages))
    environment.prepare(tests=False, screens={"libEGL.so.1": "libegl1"})
    assert there == {"libegl1"}
    assert len(workshop) == 2


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ("Collecting numpy>=2.0 (from greenroom==0.1.0)", "  numpy>=2.0"),
        ("Installing collected packages: numpy, scipy", "Putting them in place"),
        ("  Using cached numpy-2.4.6.whl (18.2 MB)", None),
        ("", None),
    ],
)
def test_of_what_pip_says_only_the_short_lines_are_shown(environment, line, shown):
    assert environment.progress(line) == shown
