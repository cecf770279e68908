"""Which language the window speaks: that of the system, or the one that was chosen.

Texts stand in the sources in English. Qt Linguist's files in `gui/translations` give them in another
language, Qt brings its own texts (buttons of its dialogs), and the locale decides how numbers, dates and
times are written. All of it is settled before the first widget is made; another choice counts from the next
start.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QTranslator

from gui.words import translate

__all__ = [
    "CHOICES",
    "SETTING",
    "TRANSLATED",
    "language_of",
    "language_words",
    "load_language",
    "locale_of",
    "told_in",
]

FOLDER = Path(__file__).parent / "translations"
SETTING = "language"
TRANSLATED = ("de",)
"""Languages with a translation, by their ISO 639 codes."""

_kept: list[bytes] = []
"""Translators read these for as long as the program runs, and keep no copy."""

CHOICES = ("system", "en", *TRANSLATED)


def locale_of(choice: str, system: QLocale) -> QLocale:
    """Return the locale for a choice.

    With ``system`` numbers are written as the system does, whatever its language. A language that was chosen
    keeps the country of the system where they belong together: German in Switzerland writes a point.
    """
    if choice not in CHOICES or choice == "system":
        return system
    if system.name().partition("_")[0] == choice:
        return system
    return QLocale(choice)


def language_of(choice: str, system: QLocale) -> str:
    """Return the code of the language for a choice.

    A system may show its texts in one language and write its numbers as in another; so the one does not
    follow from the other.
    """
    if choice in CHOICES and choice != "system":
        return choice
    return next(iter(system.uiLanguages()), system.name()).replace("_", "-").partition("-")[0]


def load_language(application: QCoreApplication, choice: str) -> QLocale:
    """Let `application` speak the language of a choice, and return its locale.

    Where there is no translation the texts stay English.
    """
    locale, code = locale_of(choice, QLocale.system()), language_of(choice, QLocale.system())
    locale.setNumberOptions(QLocale.NumberOption.RejectGroupSeparator)
    QLocale.setDefault(locale)
    if code in TRANSLATED:
        qt_texts = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
        for file in (Path(qt_texts) / f"qtbase_{code}.qm", FOLDER / f"galvanote_{code}.qm"):
            translator = QTranslator(application)
            if translator.load(_read(file)):
                application.installTranslator(translator)
    return locale


def _read(file: Path) -> bytes:
    """Return the texts in a file, which stay in memory; none where it cannot be read.

    Given its name, Qt maps the file: replaced or taken away beneath the program (an update, a stick pulled
    out), the next text would end it, in the middle of a run.
    """
    try:
        _kept.append(file.read_bytes())
    except OSError:
        return b""
    return _kept[-1]


def language_words() -> dict[str, str]:
    """Return the choices in words; a language is called as it calls itself, so that everybody finds it."""
    return {"system": translate("Menu", "As the system"), "en": "English", "de": "Deutsch"}


def told_in(choice: str) -> str:
    """Return, in the language of a choice, that it counts from the next start."""
    return {
        "de": "Beim nächsten Start spricht das Fenster Deutsch.",
    }.get(language_of(choice, QLocale.system()), "The window speaks English from its next start on.")
