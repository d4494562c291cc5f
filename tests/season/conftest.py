"""What several tests of the season stand on."""

import pytest

from greenroom.season.deeds_harden import start_hardening
from tests.season._door import FIRST, RACK, Door


@pytest.fixture
def door(tmp_path):
    """A rack that has begun to harden, on a ledger of its own."""
    made = Door(tmp_path / "ledger.db")
    made.do(start_hardening(made.season, RACK, FIRST))
    yield made
    made.ledger.close()
