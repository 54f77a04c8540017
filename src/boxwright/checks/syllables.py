"""How many syllables an English word has: from syllapy's list, by way of its stem if need be.

The list holds stems more than forms, and its rules take `figures` for three; so an ending
is taken off, where the stem is listed. Its adverbs on `ingly` are all one short, so there
the ending goes first.
"""

from __future__ import annotations

from functools import lru_cache

_HISSING = ("s", "x", "z", "ch", "sh", "ce", "ge", "se", "ze")
_T_OR_D = ("t", "d", "te", "de")


@lru_cache(maxsize=4096)
def syllables(word: str) -> int:
    """Return the syllables of `word`, one at least."""
    import syllapy

    low = word.lower()
    known = _listed(low) if not low.endswith("ingly") else 0
    found = known or _by_ending(low) or syllapy.count(low)
    return max(found, 1)


def _listed(word: str) -> int:
    import syllapy

    found: int = syllapy.WORD_DICT.get(word, 0)
    return found


def _by_ending(word: str) -> int:
    """Return the syllables of a listed stem with its ending; 0 where there is none."""
    if word.endswith("s") and (stem := _listed(word[:-1])):
        return stem + word[:-1].endswith(_HISSING)
    if word.endswith("ed"):
        for base in (word[:-2], word[:-1]):
            if stem := _listed(base):
                return stem + base.endswith(_T_OR_D)
    if word.endswith("ly") and (stem := _listed(word[:-2]) or _by_ending(word[:-2])):
        return stem + 1
    if word.endswith("ing"):
        for base in (word[:-3], f"{word[:-3]}e"):
            if stem := _listed(base):
                return stem + 1
    return 0
