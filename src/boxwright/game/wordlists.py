"""Words: the common ones of a language, a teacher's own, and which never stand on a lock.

Common words and how common they are come from wordfreq, unsuitable ones from the list of
better-profanity; both packages are loaded when first needed. Words that upset children stand
in `undrawn/`, a list of ours for a language. A list is a tuple of words in capitals, the
commonest first, each once.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from itertools import islice
from pathlib import Path

from boxwright.problems import Problem, Where, refuse
from boxwright.text import nfc

COMMON = 50_000
LEAST_ZIPF = 3.0
"""Words less frequent than once in a million are left out; a choice of ours, no source."""
SHORTEST_INSIDE = 3
_ENDINGS = ("S", "ES", "ED", "ER", "ERS", "Y", "ING", "IN", "LY")
_COMMENT = "#"


@cache
def unsuitable() -> frozenset[str]:
    """Return words, in capitals, that no lock and no sheet may show."""
    text = files("better_profanity").joinpath("profanity_wordlist.txt").read_text("utf-8")
    stems = {line.strip().upper() for line in text.splitlines() if line.strip()}
    return frozenset(stem + ending for stem in stems for ending in ("", *_ENDINGS))


@cache
def undrawn(language: str = "en") -> frozenset[str]:
    """Return words, in capitals, that are not drawn: unsuitable ones, and those for no child.

    What a teacher writes is not held against them: BLOOD may be what a lesson is about.
    """
    file = files(__package__).joinpath("undrawn", f"{language.partition('-')[0]}.txt")
    text = file.read_text("utf-8") if file.is_file() else ""
    lines = (line for line in text.splitlines() if not line.startswith(_COMMENT))
    return unsuitable() | {word for line in lines for word in line.split()}


def unsuitable_inside(letters: str) -> bool:
    """Tell whether a word that is not drawn can be read in `letters`, forwards or backwards.

    For random letters: strict, since another draw costs nothing. `CLASS` fails too.
    """
    banned, size = undrawn(), len(letters)
    spans = [
        letters[start:end]
        for start in range(size)
        for end in range(start + SHORTEST_INSIDE, size + 1)
    ]
    return any(span in banned or span[::-1] in banned for span in spans)


@cache
def common_words(language: str = "en", limit: int = COMMON) -> tuple[str, ...]:
    """Return the commonest words of `language` (BCP 47), in capitals, fit to be drawn for pupils.

    English ones of A to Z alone. Raises Refused for a language that wordfreq has no list of.
    """
    import wordfreq

    code = language.partition("-")[0]
    known = wordfreq.available_languages()
    if code not in known:
        where = Where("--language")
        choices = tuple(sorted(known))
        refuse(Problem.of("wordlist.no-language", where, found=language, choices=choices))
    # A bucket holds the words of one frequency: the n-th those of 10 ** (-n / 100).
    buckets = wordfreq.get_frequency_list(code)[: round((9 - LEAST_ZIPF) * 100) + 1]
    found = islice((word for bucket in buckets for word in bucket), limit)
    good, banned = suitable(word for word in found if not _foreign(word, code)), undrawn(code)
    return tuple(word for word in good if word not in banned)


def _foreign(word: str, language: str) -> bool:
    return language == "en" and not word.isascii()


def suitable(words: Iterable[str]) -> tuple[str, ...]:
    """Return `words` of letters alone, in capitals, without unsuitable ones and repeats."""
    capitals = (nfc(word).strip().upper() for word in words)
    banned = unsuitable()
    return tuple(dict.fromkeys(w for w in capitals if w.isalpha() and w not in banned))


def own_words(path: Path) -> tuple[str, ...]:
    """Return the words of a teacher's file: one a line, or the first column of a table.

    What follows `#` is a comment. Raises Refused if it cannot be read or holds no word.
    """
    words = suitable(_listed(path))
    return words or refuse(Problem.of("wordlist.no-words", Where(str(path)), file=str(path)))


def left_out(path: Path) -> tuple[str, ...]:
    """Return what `own_words` leaves out of that file: unsuitable, or not of letters alone."""
    return tuple(word for word in _listed(path) if not suitable([word]))


def _listed(path: Path) -> list[str]:
    where = Where(str(path))
    try:
        text = path.read_text("utf-8-sig")
    except OSError as error:
        reason = error.strerror or type(error).__name__
        refuse(Problem.of("wordlist.no-file", where, file=str(path), reason=reason))
    except UnicodeDecodeError as error:
        refuse(Problem.of("wordlist.not-utf8", where, file=str(path), position=error.start))
    lines = [line.partition(_COMMENT)[0] for line in text.splitlines()]
    words = [row[0].strip() for row in csv.reader(lines) if row]
    return [word for word in words if word]


def order_by_use(words: Iterable[str], language: str = "en") -> tuple[str, ...]:
    """Return `words` with the commonest first; those that wordfreq does not know go last."""
    import wordfreq

    code = language.partition("-")[0]
    return tuple(sorted(words, key=lambda word: -wordfreq.zipf_frequency(word.lower(), code)))
