"""What holds for every test: no screen, no touching the person's own files, nothing left running."""

import os
import threading
import time

# Qt reads this when it is first loaded, so it must stand before any test module is imported.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
# English is spoken whatever the system speaks; Qt asks these in turn.
os.environ.update(LC_ALL="C.UTF-8", LANG="C.UTF-8", LANGUAGE="")

import pytest
from hypothesis import settings

USER_FOLDERS = ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME", "XDG_RUNTIME_DIR")
GRACE_SECONDS = 2.0  # for a thread that has been told to stop and is on its way out

settings.register_profile("ci", deadline=None, derandomize=True, max_examples=60)
settings.register_profile("thorough", deadline=None, max_examples=2000)
settings.load_profile("ci")  # pytest --hypothesis-profile=thorough overrides this


@pytest.fixture(scope="session", autouse=True)
def own_user_folders(tmp_path_factory):
    """Give the tests a home of their own, so that no test can reach the person's records."""
    home = tmp_path_factory.mktemp("home")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("HOME", str(home))
        for name in USER_FOLDERS:
            folder = home / name.lower()
            folder.mkdir(mode=0o700)
            patch.setenv(name, str(folder))
        yield home


@pytest.fixture(scope="session")
def server():
    """A PostgreSQL server: the one that GREENROOM_TEST_SERVER names, or one of the tests' own."""
    from tests.private_server import Server, binaries, private_server

    programs = binaries()
    if named := os.environ.get("GREENROOM_TEST_SERVER"):
        yield Server(named)
    elif programs is None:
        pytest.skip("no PostgreSQL server is installed here, and GREENROOM_TEST_SERVER names none")
    else:
        with private_server(programs) as made:
            yield made


@pytest.fixture(autouse=True)
def no_threads_left_behind():
    """Fail a test after which a thread is still running that would keep the program from ending."""
    before = set(threading.enumerate())
    yield
    left = left_running(before, GRACE_SECONDS)
    if left:
        pytest.fail(f"left running after the test: {', '.join(left)}")


def left_running(before, grace_seconds):
    """Names of the threads started since `before` that do not end within the grace given them."""
    until = time.monotonic() + grace_seconds
    started = [thread for thread in threading.enumerate() if thread not in before and not thread.daemon]
    for thread in started:
        thread.join(max(0.0, until - time.monotonic()))
    return [thread.name for thread in started if thread.is_alive()]
