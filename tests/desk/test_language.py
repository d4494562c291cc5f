"""The language is the system's or the one chosen, and a change of it takes hold at the next start."""

import os

import pytest
from PySide6.QtCore import QLocale, QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from greenroom import app
from greenroom.desk import language, pages
from greenroom.desk.language import choose_language, chosen_language, own_language, speak, system_language
from greenroom.desk.language_field import LanguageField
from greenroom.desk.own_settings import QT_SIZE, choose_size, size_now, size_taken
from greenroom.desk.pages import AGAIN, open_again
from greenroom.desk.start import usual_size
from greenroom.speech import SPEAKER, Tongue, figure, many, tr

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture(autouse=True)
def english_again():
    before = QLocale()
    yield
    choose_language(None)
    choose_size(100)
    SPEAKER.speak(Tongue())
    QLocale.setDefault(before)


@pytest.fixture
def system(monkeypatch):
    """Set the language of the system."""

    def take(name):
        locale = QLocale(name)
        monkeypatch.setattr(QLocale, "system", lambda: locale)

    return take


@pytest.mark.parametrize(
    ("name", "spoken"), [("de_AT", "de"), ("fr_CA", "fr"), ("es_MX", "es"), ("sl_SI", "en"), ("en_US", "en")]
)
def test_the_language_of_the_system_is_spoken_where_the_program_has_it(system, name, spoken):
    system(name)
    assert system_language() == own_language() == spoken


def test_a_language_that_was_chosen_goes_before_the_systems_until_it_is_given_up(system):
    system("fr_FR")
    choose_language("es")
    assert (chosen_language(), own_language()) == ("es", "es")
    choose_language(None)
    assert (chosen_language(), own_language()) == (None, "fr")


def test_each_language_counts_dates_and_writes_numbers_as_its_land_does(system):
    # Unicode CLDR: decimal and grouping signs of de, fr and es; of German in Switzerland a point and
    # ’ (’ or ' by release). From memory.
    system("C")
    shown = {}
    for code in ("de", "fr", "es"):
        speak(code)
        shown[code] = (figure(1234.5, ",.1f"), many(1, "day"), many(2, "day"))
    assert shown == {
        "de": ("1.234,5", "1 Tag", "2 Tage"),
        "fr": ("1\u202f234,5", "1 jour", "2 jours"),
        "es": ("1.234,5", "1 día", "2 días"),
    }
    system("de_CH")
    speak("de")
    assert figure(1234.5, ",.1f").replace("'", "’") == "1’234.5"


def test_a_language_whose_catalogue_is_damaged_leaves_the_program_english(monkeypatch, tmp_path, caplog):
    (tmp_path / "languages").mkdir()
    (tmp_path / "languages" / "greenroom_de.qm").write_bytes(b"no catalogue")
    monkeypatch.setattr(language, "resources_folder", lambda: tmp_path)
    speak("de")
    assert (SPEAKER.tongue.code, tr("Find")) == ("en", "Find")
    assert "cannot be read" in caplog.text


@pytest.fixture
def field(qtbot):
    made = LanguageField()
    qtbot.addWidget(made)
    made.show()
    return made


def test_choosing_a_language_says_when_it_takes_hold_and_that_it_is_a_draft(field):
    assert not field.again.isVisible()
    field.languages.setCurrentText("Deutsch")
    assert field.again.isVisible()
    assert "from the next start" in field.words.text()
    assert "no native reader" in field.words.text()
    field.languages.setCurrentText("English")
    assert not field.again.isVisible()
    assert not field.words.isVisible()


def test_the_window_opens_again_in_the_language_chosen_with_what_it_had_open(field, monkeypatch):
    asked, ended = [], []
    monkeypatch.setattr(pages.QProcess, "startDetached", lambda _program, arguments: asked.append(arguments))
    monkeypatch.setattr(QApplication, "exit", ended.append)
    field.languages.setCurrentText("Français")
    QTest.mouseClick(field.again, LEFT)
    assert (field.isVisible(), ended) == (False, [AGAIN])
    for asking in (("--language", "de"), ("--language=de",), ("--lang", "de")):
        asked.clear()
        open_again([*asking, "my.greenroom", "--today", "2027-05-14"])
        assert asked[0][-3:] == ["my.greenroom", "--today", "2027-05-14"]
        assert "de" not in asked[0]


def test_the_command_line_speaks_another_language_for_once(capsys, system):
    system("C")
    for code in ("de", "fr", "es"):
        with pytest.raises(SystemExit):
            app.main(["--language", code, "--help"])
        assert SPEAKER.tongue.code == code
    with pytest.raises(SystemExit):
        app.main(["--lang", "de", "--help"])
    assert SPEAKER.tongue.code == "de"
    with pytest.raises(SystemExit):
        app.main(["--language", "tlh", "--version"])
    assert "invalid choice" in capsys.readouterr().err


def test_text_is_as_large_as_was_chosen_from_the_next_start(field, qapp, monkeypatch):
    monkeypatch.delenv(QT_SIZE, raising=False)
    field.sizes.setCurrentText("200%")
    assert field.again.isVisible()
    assert "size" in field.words.text()
    with size_taken():
        assert os.environ[QT_SIZE] == "2.0"
    assert QT_SIZE not in os.environ  # what is started from here finds its own size
    assert (size_now(), field.again.isVisible()) == (200, True)
    field.refresh()
    assert not field.again.isVisible()
    qapp.setProperty("size", None)


def test_a_size_the_system_asks_for_goes_before_the_one_chosen(monkeypatch, qapp, qtbot):
    monkeypatch.setenv(QT_SIZE, "1.25")
    choose_size(200)
    with size_taken():
        assert os.environ[QT_SIZE] == "1.25"
    assert os.environ[QT_SIZE] == "1.25"
    made = LanguageField()
    qtbot.addWidget(made)
    assert not made.sizes.isEnabled()
    assert "system" in made.sizes.toolTip()
    qapp.setProperty("size", None)


def test_a_window_opens_no_larger_than_its_screen_has_room_for_at_that_size():
    assert usual_size(QSize(2560, 1400)) == QSize(1440, 900)
    small = usual_size(QSize(960, 600))  # 1440 x 900 at 150 %
    assert (small.width(), small.height() < 600) == (960, True)
