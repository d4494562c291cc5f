"""A job that needs hands opens a page that is there."""

import re
from pathlib import Path

import greenroom.season.jobs
from greenroom.desk.pages import page_makers


def test_every_page_a_job_may_open_is_a_page_of_the_window():
    folder = Path(greenroom.season.jobs.__file__).parent
    named = {
        key for file in folder.glob("*.py") for key in re.findall(r'page="(\w+)"', file.read_text("utf-8"))
    }
    assert named
    assert named <= set(page_makers())
