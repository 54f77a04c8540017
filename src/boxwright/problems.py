"""The one shape of a complaint: what is wrong, where, and what helps.

Whatever a user did wrong is a value of this module, gathered to the end and shown
together; exceptions are for our own mistakes. No words stand here: a `Message` is an
id with arguments, and `boxwright.messages` turns it into a language at the very edge.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field, fields, is_dataclass
from typing import Any, Literal, NoReturn, Protocol, Self, TypeAlias, TypeVar

from boxwright.frozen import frozen_value

Arg: TypeAlias = "str | int | float | Message | tuple[Arg, ...]"
Step: TypeAlias = str | int
Path: TypeAlias = tuple[Step, ...]

Severity = Literal["stop", "fix", "note"]
Basis = Literal["computed", "estimated", "declared", "try by hand"]
"""Proven; from times most of which are assumed; on somebody's word; for a person to try."""


@frozen_value
class Message:
    """Something to say to a person: a gettext id and what fills its blanks.

    The plural form follows `args["n"]` where that is given.
    """

    id: str
    args: Mapping[str, Arg] = field(default_factory=dict)

    def __hash__(self) -> int:
        """Hash by id and arguments, so that messages can stand in sets."""
        return hash((self.id, tuple(sorted(self.args.items(), key=lambda item: item[0]))))


def say(message_id: str, /, **args: Arg) -> Message:
    """Return the message `message_id` with `args` for its blanks."""
    return Message(message_id, args)


@frozen_value
class Where:
    """A place in a file of the user's; `line` and `column` count from 1."""

    file: str
    path: Path = ()
    line: int | None = None
    column: int | None = None

    def __str__(self) -> str:
        """Return `file:line:column`, as far as known, the way editors read it."""
        return ":".join(
            str(part) for part in (self.file, self.line, self.column) if part is not None
        )


@frozen_value
class Edit:
    """A remedy that needs no thought: in `file`, set `path` to `value` (None removes it).

    Where `key` is given, the last step of `path` is renamed to it instead.
    """

    file: str
    path: Path
    value: Any = None
    key: str | None = None


@frozen_value
class Problem:
    """One thing that is wrong, where it stands, and what to do about it."""

    code: str
    where: Where
    what: Message
    remedy: Message
    edit: Edit | None = None

    @classmethod
    def of(cls, code: str, where: Where, /, *, edit: Edit | None = None, **args: Arg) -> Self:
        """Return the problem `code`, said by the messages `code` and `code.remedy`.

        Both messages get the same arguments; each takes what it needs.
        """
        return cls(code, where, Message(code, args), Message(f"{code}.remedy", args), edit)


class Refused(Exception):  # noqa: N818 - what a user did, not a fault of ours
    """Carries the problems of one step to whoever can show them.

    For steps that cannot go on (a file that is no TOML, a sheet too wide for its
    paper); steps that can go on return their problems instead.
    """

    def __init__(self, problems: Sequence[Problem]) -> None:
        """Keep `problems`, of which there is at least one."""
        if not problems:
            raise ValueError("a refusal needs a problem")
        super().__init__("; ".join(f"{p.where}: {p.code}" for p in problems))
        self.problems = tuple(problems)


def refuse(*problems: Problem) -> NoReturn:
    """Raise `Refused` with `problems`."""
    raise Refused(problems)


@frozen_value
class Cycle:
    """Ids that each wait for the next, the last for the first."""

    ids: tuple[str, ...]


@frozen_value
class Answers:
    """Codes that a sheet can be read as, in their written forms."""

    codes: tuple[str, ...]


@frozen_value
class MissingFace:
    """A position (from 1) of a lock that lacks the wanted face, and the faces it has."""

    tag: str
    position: int
    face: str
    has: tuple[str, ...]


@frozen_value
class Seconds:
    """A time that was found, and the limit that it was held against."""

    found: int
    limit: int


@frozen_value
class Excerpt:
    """A piece of text as it stands, and the place in it (start, end) that matters."""

    text: str
    at: tuple[int, int]


@frozen_value
class Clash:
    """Ids that want the same thing."""

    ids: tuple[str, ...]
    over: str


@frozen_value
class Count:
    """How many there are, and how many are needed."""

    have: int
    need: int


Evidence = Cycle | Answers | MissingFace | Seconds | Excerpt | Clash | Count


@frozen_value
class Finding:
    """What a check says of an edition: a problem, how grave, and on what basis."""

    problem: Problem
    severity: Severity
    basis: Basis
    evidence: Evidence
    also: tuple[Where, ...] = ()
    set: str | None = None
    because: str | None = None

    @property
    def id(self) -> str:
        """Eight characters that stay the same as long as the finding is about the same.

        Lines are left out on purpose: a comment added above must not bring a
        dismissed finding back.
        """
        # Late, since every command imports this module and few have findings.
        import base64
        import hashlib
        import json

        about = [
            self.problem.code,
            self.problem.where.file,
            list(self.problem.where.path),
            [[place.file, list(place.path)] for place in self.also],
            self.set,
        ]
        digest = hashlib.sha256(json.dumps(about, ensure_ascii=False).encode()).digest()
        return base64.b32encode(digest).decode().lower()[:8]


class Weighed(Protocol):
    """A finding, or the little of it that tells which one it is, and how grave."""

    @property
    def id(self) -> str:
        """Which finding it is."""

    @property
    def severity(self) -> Severity:
        """How grave it is."""


AnyWeighed = TypeVar("AnyWeighed", bound=Weighed)


def has_stop(findings: Iterable[Weighed]) -> bool:
    """Tell whether something was found with which the game cannot run."""
    return any(finding.severity == "stop" for finding in findings)


_GRAVITY: Mapping[Severity, int] = {"stop": 0, "fix": 1, "note": 2}


def gravest_first(findings: Iterable[Finding]) -> list[Finding]:
    """Return `findings` in the order in which a person should read them."""
    return sorted(findings, key=lambda f: (_GRAVITY[f.severity], f.because is not None))


def kebab(name: str) -> str:
    """Return a class name as files write it: `MissingFace` is `missing-face`."""
    return "".join(f"-{letter.lower()}" if letter.isupper() else letter for letter in name).lstrip(
        "-"
    )


def evidence_json(evidence: Evidence) -> dict[str, Any]:
    """Return evidence as the JSON that `--json` prints, with its type first."""
    values = {item.name: getattr(evidence, item.name) for item in fields(evidence)}
    return {"type": kebab(type(evidence).__name__)} | values


def plain(value: Any) -> Any:
    """Return frozen dataclasses, tuples and mappings as JSON's own dicts and lists."""
    if is_dataclass(value) and not isinstance(value, type):
        return {item.name: plain(getattr(value, item.name)) for item in fields(value)}
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, tuple | list | frozenset):
        return [plain(item) for item in value]
    return value
