"""Messages into words: the only place where an id becomes a language.

Catalogues are gettext's, one domain for each area of ids: `lock.cannot-show` is said
by `locale/LANGUAGE/LC_MESSAGES/lock.po`. A unit more brings its own catalogue and
touches no other; a command reads just the areas that it speaks of. A message may be
a pattern in the style of `str.format`; a blank whose value is a list is joined as
the catalogue asks: `{choices:or}`, `{names:and}`, or `{names}` for plain commas. The
blank `{boxwright}` is how the program is started here.
"""

from __future__ import annotations

import gettext
import os
import os.path  # not pathlib: every command waits for this module
from functools import lru_cache
from string import Formatter
from typing import Any

from boxwright.problems import Arg, Message, say

LOCALE = os.path.join(os.path.dirname(__file__), "locale")  # noqa: PTH118, PTH120
SOURCE_LANGUAGE = "en"
STARTED_AS = "BOXWRIGHT_STARTED_AS"


def started_as() -> str:
    """Return how a person starts the program here: what is typed before a command."""
    return os.environ.get(STARTED_AS, "boxwright")


def typed(*words: object) -> str:
    """Return the command `boxwright WORDS` as a shell reads it, odd names in quotation marks."""
    from shlex import join  # late: few commands show another one

    return f"{started_as()} {join(map(str, words))}"


@lru_cache(maxsize=256)
def _catalogue(area: str, language: str) -> gettext.NullTranslations:
    wanted = [language.replace("-", "_"), language.partition("-")[0], SOURCE_LANGUAGE]
    return gettext.translation(area, LOCALE, languages=wanted, fallback=True)


def speaks(language: str) -> bool:
    """Tell whether there are catalogues in `language` itself, so that no English stands in."""
    primary = language.partition("-")[0].lower()
    wanted = [language.replace("-", "_"), primary]
    return primary == SOURCE_LANGUAGE or gettext.find("text", LOCALE, wanted) is not None


def _pattern(message: Message, language: str) -> str:
    catalogue = _catalogue(message.id.partition(".")[0], language)
    n = message.args.get("n")
    if isinstance(n, int):
        found = catalogue.ngettext(message.id, message.id, n)
        if found != message.id:
            return found
    return catalogue.gettext(message.id)


class _Filler(Formatter):
    """Fills a pattern's blanks; lists are joined in the language's own way."""

    def __init__(self, language: str) -> None:
        self.language = language

    def get_value(self, key: int | str, args: Any, kwargs: Any) -> Any:
        return started_as() if key == "boxwright" else super().get_value(key, args, kwargs)

    def format_field(self, value: Any, format_spec: str) -> str:
        if isinstance(value, Message):
            value = words(value, self.language)
        if isinstance(value, tuple):
            return self._join(value, format_spec)
        return str(super().format_field(value, format_spec))

    def _join(self, values: tuple[Arg, ...], how: str) -> str:
        said = [self.format_field(value, "") for value in values]
        if how not in ("and", "or") or len(said) < 2:
            return words(say("text.comma"), self.language).join(said)
        head = words(say("text.comma"), self.language).join(said[:-1])
        return words(say(f"text.{how}", head=head, last=said[-1]), self.language)


def words(message: Message, language: str = SOURCE_LANGUAGE) -> str:
    """Return what `message` says in `language` (BCP 47).

    A language without a catalogue falls back to English; an id that no catalogue
    holds is returned as it is, so that nothing is ever lost.
    """
    pattern = _pattern(message, language)
    if pattern == message.id:
        return " ".join([message.id, *(f"{k}={v}" for k, v in message.args.items())])
    return _Filler(language).vformat(pattern, (), message.args)
