"""The code of each lock: as given, one of a list, or drawn; always one that a sheet can carry."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from boxwright.dice import Dice
from boxwright.game.arranged import ArrangedLock
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.game.model import LockWish
from boxwright.game.spelling import WordIndex
from boxwright.problems import Problem, Where, refuse

AUTO = "auto"
ONE_OF = "one of "  # not read by people: the game file's own word
FEWEST_WORDS = 8
"""Among fewer a code is no secret, and the same one would come up again and again."""
_CHOICE = re.compile(r"^(?:one\s*of|one|any\s*of|any|either)\b\s*:?\s*", re.IGNORECASE)
_BETWEEN = frozenset({"or", "and"})


def written_codes(text: str) -> tuple[str, ...]:
    """Return the codes that a lock's `code` names: none for `auto`, else one or several."""
    text = text.strip()
    if text == AUTO:
        return ()
    if not text.startswith(ONE_OF):
        return (text,)
    rest = text.removeprefix(ONE_OF)
    # Words and numbers stand apart by blanks; moves and names hold blanks themselves.
    parts = rest.split(",") if "," in rest else rest.split()
    return tuple(part.strip() for part in parts if part.strip())


def code_problems(device: Device, text: str, where: Where) -> Iterator[Problem]:
    """Yield a Problem for each written code that is none of this mechanism's at all."""
    several = _choice(device, text.strip(), where)
    if several is not None:
        right = ONE_OF + " ".join(several)
        yield Problem.of("code.several", where, code=text.strip(), right=right)
        return
    for written in written_codes(text):
        read = entry(device).read(device, written, where)
        if isinstance(read, Problem):
            slip = written.casefold() == AUTO
            yield Problem.of("code.auto", where, code=written) if slip else read


def _choice(device: Device, text: str, where: Where) -> tuple[str, ...] | None:
    """Return the codes that `text` means, where it lists some otherwise than the file does."""

    def fits(written: str) -> bool:
        code = entry(device).read(device, written, where)
        return not isinstance(code, Problem) and len(code) in device.lengths

    listed = _CHOICE.sub("", text, count=1).replace(",", " ").split()
    parts = tuple(part for part in listed if part not in _BETWEEN)
    as_it_should_be = text.startswith(ONE_OF) and len(parts) == len(listed)
    if text == AUTO or as_it_should_be or fits(text) or len(parts) < 2:
        return None
    return parts if all(map(fits, parts)) else None


def named_codes(device: Device, text: str, where: Where) -> tuple[Code, ...]:
    """Return the codes that `text` names; raises Refused where one cannot be read."""
    codes = []
    for written in written_codes(text):
        read = entry(device).read(device, written, where)
        if isinstance(read, Problem):
            refuse(read)
        codes.append(read)
    return tuple(codes)


def can_have(device: Device, code: Code) -> bool:
    """Tell whether `device` can be opened by `code`."""
    mechanism = entry(device)
    if device.fixed is not None:
        return mechanism.same(device, device.fixed, code)
    return mechanism.possible(device, code)


def near(a: Code, b: Code) -> bool:
    """Tell whether codes of like locks could be mixed up: at most one place differs."""
    return len(a) == len(b) and sum(x != y for x, y in zip(a, b, strict=True)) <= 1


def of_wished_length(lock: ArrangedLock | LockWish, device: Device) -> Device:
    """Return `device` with only the lengths that the game wants, where it has some of them."""
    if lock.length is None or device.fixed is not None:
        return device
    shortest = max(device.shortest, lock.length[0])
    longest = min(device.longest, lock.length[1])
    if shortest > longest:
        return device
    return replace(device, shortest=shortest, positions=device.positions[:longest])


def choose_code(
    lock: ArrangedLock,
    devices: Sequence[Device],
    dice: Dice,
    where: Where,
    accept: Callable[[Code], bool],
    language: str = "en",
) -> Code | None:
    """Return the code for `lock` on the real locks `devices`, a group each; None for one without.

    A code that the game gives stays, whatever the locks can do: the checks judge it. Of
    several, one is drawn among those that all locks show and `accept` takes. Raises
    Refused where no code is left to draw.
    """
    device = devices[0]
    if entry(device).alphabet(device) is None:
        return None

    def shown(code: Code) -> bool:
        return all(can_have(one, code) for one in devices)

    named = named_codes(device, lock.code, where)
    if named:
        showable = [code for code in named if shown(code)]
        good = [code for code in showable if accept(code)]
        return dice.pick(good or showable or list(named))
    wished = of_wished_length(lock, device)
    words = words_for(device, language)
    code = entry(device).draw(dice, wished, lambda code: shown(code) and accept(code), words)
    if code is None:
        refuse(Problem.of("code.none-left", where, lock=where.path[-2]))
    return code


def words_for(device: Device, language: str) -> WordIndex | None:
    """Return the words to draw from for letter wheels: a word is remembered, letters are not."""
    if device.mechanism != "letter-wheels":
        return None
    from boxwright.game.wordlists import common_words

    return WordIndex(common_words(language), device.longest, fewest=FEWEST_WORDS)
