"""The one command of the README makes a server, starts it, and stops it with nothing lost."""

import importlib.util
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from greenroom.ledger import Ledger
from tests.ledger.checks import assert_one_sentence, sown
from tests.private_server import _free_port, _hand, binaries

SERVE = Path(__file__).parents[2] / "packaging" / "serve.py"
if binaries() is None:
    pytest.skip("no PostgreSQL server is installed here", allow_module_level=True)


@pytest.fixture(scope="module")
def serve():
    spec = importlib.util.spec_from_file_location("serve", SERVE)
    module = importlib.util.module_from_spec(spec)
    sys.modules["serve"] = module
    spec.loader.exec_module(module)
    yield module
    del sys.modules["serve"]


@pytest.fixture
def place():
    """A folder for a server, and whose hand runs it."""
    folder = Path(tempfile.mkdtemp(prefix="greenroom-serve-"))
    yield folder, _hand(folder)
    shutil.rmtree(folder)


def test_one_command_makes_a_server_and_what_is_written_outlives_its_stop(serve, place):
    folder, hand = place
    asked = serve.parse(["--folder", str(folder), "--port", str(_free_port())])
    told = serve.serve(asked, hand)
    address = told.partition("greenroom '")[2].rstrip("'")
    server = serve.Server(folder, asked.port, serve.programs(), hand)
    try:
        server.ask("postgres", "CREATE ROLE wim LOGIN PASSWORD 'Only-here-1' IN ROLE greenroom_writer")
        server.ask("postgres", "CREATE ROLE olga LOGIN PASSWORD 'Only-here-2' IN ROLE greenroom_owner")
        assert f"host={folder}" in address
        olga, wim = (
            f"postgresql://{name}@localhost:{asked.port}/greenroom"
            for name in ("olga:Only-here-2", "wim:Only-here-1")
        )
        Ledger.open(olga).close()
        with Ledger.open(wim) as ledger:
            ledger.record(sown())
        assert serve.serve(asked, hand) == told  # once more does no harm
        asked.stop = True
        assert serve.serve(asked, hand) == "Stopped."
        assert not server.runs()
        asked.stop = False
        serve.serve(asked, hand)
        with Ledger.open(wim) as ledger:
            assert len(ledger.facts()) == 1
    finally:
        server.stop()


def test_what_cannot_be_is_said_in_one_sentence(serve, place):
    folder, hand = place
    for words, said in (
        (["--listen", "192.0.2.7"], "so that nothing travels unencrypted"),
        (["--folder", str(folder / ("a" * 90))], "The folder's path needs at most"),
    ):
        with pytest.raises(serve.ServeError, match=said) as caught:
            serve.serve(serve.parse(words), hand)
        assert_one_sentence(str(caught.value))
    server = serve.Server(folder, 1, serve.programs(), hand)
    with pytest.raises(serve.ServeError, match="is no name to write with"):
        server.add("ana; DROP DATABASE greenroom")


def test_help_needs_nothing_but_python():
    done = subprocess.run([sys.executable, "-I", SERVE, "--help"], capture_output=True, text=True, check=True)
    assert "--add" in done.stdout
