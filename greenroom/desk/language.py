"""The language of the program: which one is wanted on this computer, and how Qt comes to speak it.

`speak` must run before anything that speaks is imported, so this module imports nothing of the house that
does. What is chosen is kept per user and computer, not in the ledger: the ledger may be shared.
"""

from __future__ import annotations

import logging
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QTranslator

from greenroom.desk.own_settings import own_settings
from greenroom.own_files import resources_folder
from greenroom.speech import ENGLISH, NAMES, SPEAKER, Tongue

CONTEXT = "greenroom"
DRAFTS = frozenset({"de", "fr", "es"})
"""Languages whose texts no native reader has gone through yet."""
LANGUAGE_KEY = "language"

LOG = logging.getLogger(__name__)


def chosen_language() -> str | None:
    """Return the language that was chosen on this computer; None if the system's is to be followed."""
    held = own_settings().value(LANGUAGE_KEY)
    return held if isinstance(held, str) and held in NAMES else None


def choose_language(code: str | None) -> None:
    """Keep a language for the next start; None follows the system."""
    settings = own_settings()
    if code is None:
        settings.remove(LANGUAGE_KEY)
    else:
        settings.setValue(LANGUAGE_KEY, code)
    settings.sync()


def system_language() -> str:
    """Return the first language of the system that the program speaks; English if it speaks none."""
    wanted = (name.split("-")[0] for name in QLocale.system().uiLanguages())
    return next((code for code in wanted if code in NAMES), ENGLISH)


def own_language() -> str:
    """Return the language to start in."""
    return chosen_language() or system_language()


def speak(code: str) -> None:
    """Speak a language from now on: its texts, its signs in numbers, its forms of dates in fields."""
    locale = locale_of(code)
    QLocale.setDefault(locale)
    translator = _catalogue(code)
    if translator is None:
        SPEAKER.speak(Tongue())
        return
    known: dict[tuple[str, str], str] = {}

    def translate(source: str, sense: str, number: int | None) -> str:
        if number is not None:
            return translator.translate(CONTEXT, source, sense or None, number) or ""
        key = (source, sense)
        if key not in known:
            known[key] = translator.translate(CONTEXT, source, sense or None) or ""
        return known[key]

    SPEAKER.speak(Tongue(code, translate, locale.decimalPoint(), locale.groupSeparator()))


def locale_of(code: str) -> QLocale:
    """Return the locale of a language: as the system has it where it speaks the same one."""
    system = QLocale.system()
    if code == ENGLISH:
        return QLocale(QLocale.Language.English, QLocale.Country.UnitedKingdom)
    return system if system.name().split("_")[0] == code else QLocale(code)


def translate_qt(application: QCoreApplication) -> None:
    """Let Qt's own texts, such as the menu of a text field, be in the program's language, too."""
    code = SPEAKER.tongue.code
    if code == ENGLISH:
        return
    translator = QTranslator(application)
    if translator.load(f"qtbase_{code}", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)):
        application.installTranslator(translator)


def _catalogue(code: str) -> QTranslator | None:
    if code == ENGLISH:
        return None
    translator = QTranslator()
    file = Path(str(resources_folder() / "languages" / f"greenroom_{code}.qm"))
    if not translator.load(str(file)):
        LOG.warning("The catalogue of the language %s cannot be read", code)
        return None
    return translator
