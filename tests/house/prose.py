"""Finds what a person would read, where it does not belong: in code and in templates.

Prose is two words in a row. What stays: docstrings, what only developers see (asserts,
exceptions that are Python's or end in Error), patterns, annotations, terms that a `Literal`
fixes, and lines that end in the comment `not read by people`; on the first line of a
statement it covers all of that.
"""

import ast
import builtins
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

HOLE = "\0"  # where a value is filled in
PROSE = re.compile(r"[^\W\d_]+[,;:.!?…]* (?:\0[,;:.!?…]* )*[^\W\d_]{2,}")
MARK = "not read by people"
REGEX_CALLS = {"compile", "match", "fullmatch", "search", "sub", "split", "findall", "finditer"}


def is_prose(text: str) -> bool:
    """Whether two words stand in a row; `HOLE` may stand between them."""
    return PROSE.search(text) is not None


@dataclass
class Finder(ast.NodeVisitor):
    """Gathers the prose of one Python file as (line, text)."""

    lines: list[str]
    terms: frozenset[str]
    found: list[tuple[int, str]] = field(default_factory=list)
    in_exception: bool = False

    def visit(self, node: ast.AST) -> None:
        """Pass a simple statement whose first line excuses it."""
        simple = ast.Assign | ast.AnnAssign | ast.Expr | ast.Return
        if not (isinstance(node, simple) and f"# {MARK}" in self.lines[node.lineno - 1]):
            super().visit(node)

    def take(self, node: ast.expr, text: str) -> None:
        """Keep `text` if it is prose and its lines do not excuse it."""
        lines = self.lines[node.lineno - 1 : node.end_lineno]
        excused = any(f"# {MARK}" in line for line in lines)
        if is_prose(text) and text not in self.terms and not excused:
            self.found.append((node.lineno, text.replace(HOLE, "{}")))

    def visit_Constant(self, node: ast.Constant) -> None:
        if isinstance(node.value, str):
            self.take(node, node.value)

    def visit_JoinedStr(self, node: ast.JoinedStr) -> None:
        self.take(node, "".join(literal(part) for part in node.values))
        for part in node.values:
            if isinstance(part, ast.FormattedValue):
                self.visit(part.value)

    def visit_Expr(self, node: ast.Expr) -> None:
        if not isinstance(node.value, ast.Constant):
            self.generic_visit(node)

    def visit_Assert(self, node: ast.Assert) -> None:
        self.visit(node.test)

    def visit_Raise(self, node: ast.Raise) -> None:
        raised = node.exc.func if isinstance(node.exc, ast.Call) else node.exc
        if raised is not None and not is_error(raised):
            self.generic_visit(node)

    def visit_Call(self, node: ast.Call) -> None:
        name = ast.unparse(node.func)
        if name == "super().__init__" and self.in_exception:
            return
        pattern = name.partition(".")[0] == "re" and name.partition(".")[2] in REGEX_CALLS
        self.visit(node.func)
        for argument in node.args[pattern or name == "cast" :]:
            self.visit(argument)
        for keyword in node.keywords:
            self.visit(keyword.value)

    def visit_Subscript(self, node: ast.Subscript) -> None:
        if not is_literal(node):
            self.generic_visit(node)

    def visit_ClassDef(self, node: ast.ClassDef) -> None:
        before, self.in_exception = self.in_exception, any(is_error(base) for base in node.bases)
        self.generic_visit(node)
        self.in_exception = before

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        for part in (*node.decorator_list, node.args, *node.body):
            self.visit(part)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if node.value is not None and ast.unparse(node.annotation) != "TypeAlias":
            self.visit(node.value)

    def visit_arg(self, node: ast.arg) -> None:
        """An argument's annotation is no text."""


def literal(part: ast.expr) -> str:
    """Return one part of an f-string, a hole for what is filled in."""
    return str(part.value) if isinstance(part, ast.Constant) else HOLE


def is_error(raised: ast.expr) -> bool:
    """Whether an exception tells of our own mistakes: Python's do, and those named so."""
    name = ast.unparse(raised).rpartition(".")[2]
    known = getattr(builtins, name, None)
    pythons = isinstance(known, type) and issubclass(known, BaseException)
    return pythons or name.endswith("Error")


def is_literal(node: ast.AST) -> bool:
    """Whether this is `Literal[...]`."""
    return isinstance(node, ast.Subscript) and ast.unparse(node.value).endswith("Literal")


def terms(sources: Iterable[str]) -> frozenset[str]:
    """Return every text that some `Literal[...]` fixes."""
    found = set()
    for source in sources:
        for node in ast.walk(ast.parse(source)):
            if is_literal(node):
                found |= {part.value for part in ast.walk(node) if isinstance(part, ast.Constant)}
    return frozenset(text for text in found if isinstance(text, str))


def in_python(source: str, fixed: frozenset[str] = frozenset()) -> list[tuple[int, str]]:
    """Return the prose of a Python file as (line, text)."""
    finder = Finder(source.splitlines(), fixed)
    for statement in ast.parse(source).body:
        finder.visit(statement)
    return sorted(finder.found)


# --- Typst -----------------------------------------------------------------------------

STATEMENT = re.compile(r"(?:let|set|show|import|include|if|for|while|return|context)\b")
NAME = re.compile(r"[^\W\d][\w-]*")
OURS = re.compile(r"(?:panic|assert(?:\.eq|\.ne)?)\(")
CLOSES = {"(": ")", "{": "}", "[": "]"}


class Typst:
    """Reads a template as far as it takes to tell its texts from its code."""

    def __init__(self, source: str) -> None:
        """Read `source` from its start."""
        self.source, self.at = source, 0
        self.found: list[tuple[int, str]] = []

    def take(self, start: int, text: str) -> None:
        """Keep `text`, which starts at `start`, if it is prose."""
        end = self.source.find("\n", self.at)
        line = self.source[self.source.rfind("\n", 0, self.at) + 1 : end if end >= 0 else None]
        if is_prose(re.sub(r"\s+", " ", text)) and f"// {MARK}" not in line:
            number = self.source.count("\n", 0, start) + 1
            self.found.append((number, text.replace(HOLE, "{}").strip()))

    def skip(self) -> bool:
        """Pass a comment, a raw text or a formula, if one starts here."""
        for opening, closing in (("//", "\n"), ("/*", "*/"), ("```", "```"), ("`", "`")):
            if self.source.startswith(opening, self.at):
                end = self.source.find(closing, self.at + len(opening))
                kept = 0 if closing == "\n" else len(closing)
                self.at = len(self.source) if end < 0 else end + kept
                return True
        return False

    def string(self) -> None:
        """Read a string in code."""
        start = self.at
        ended = re.compile(r'"(?:[^"\\]|\\.)*"?', re.S).match(self.source, start)
        assert ended
        self.at = ended.end()
        self.take(start, ended[0])

    def code(self, until: str) -> None:
        """Read code up to one of the signs `until`, outside of any bracket."""
        while self.at < len(self.source):
            sign = self.source[self.at]
            if sign in until:
                return
            ours = OURS.match(self.source, self.at)
            if self.skip():
                continue
            if ours:
                self.at = ours.end()
                self.unread(")")
            elif sign == '"':
                self.string()
            elif sign in CLOSES:
                self.bracket()
            else:
                word = NAME.match(self.source, self.at)
                self.at = word.end() if word else self.at + 1

    def unread(self, closing: str) -> None:
        """Pass what a bracket holds, its texts included."""
        kept = self.found
        self.found = []
        self.code(closing)
        self.at += 1
        self.found = kept

    def bracket(self) -> None:
        """Read a bracket to its end: text in square ones, code in others."""
        opening = self.source[self.at]
        self.at += 1
        if opening == "[":
            self.markup("]")
        else:
            self.code(CLOSES[opening])
        self.at += 1

    def markup(self, until: str) -> None:
        """Read text up to the sign `until`."""
        start, text, depth = self.at, "", 0
        while self.at < len(self.source):
            sign = self.source[self.at]
            if sign == until and depth == 0:
                break
            depth += (sign == "[") - (sign == "]")
            if self.skip():
                continue
            if sign == "#":
                self.at += 1
                self.embedded()
                text += HOLE
            else:
                step = 2 if sign == "\\" else 1
                text += self.source[self.at : self.at + step]
                self.at += step
        self.take(start, text)

    def embedded(self) -> None:
        """Read the code after a hash in text."""
        if STATEMENT.match(self.source, self.at):
            return self.code("\n;]")
        while self.at < len(self.source):
            ours = OURS.match(self.source, self.at)
            word = NAME.match(self.source, self.at)
            if ours:
                self.at = ours.end()
                self.unread(")")
            elif word:
                self.at = word.end()
            elif self.source[self.at] == '"':
                self.string()
            elif self.source[self.at] in CLOSES:
                self.bracket()
            elif re.compile(r"\.[^\W\d]").match(self.source, self.at):
                self.at += 1
            else:
                return None
        return None


def in_typst(source: str) -> list[tuple[int, str]]:
    """Return the prose of a template as (line, text)."""
    reader = Typst(source)
    reader.markup("")
    return sorted(reader.found)


def reported(found: dict[str, list[tuple[int, str]]]) -> Iterator[str]:
    """Return one line for each finding."""
    for name, places in found.items():
        for line, text in places:
            yield f"{name}:{line}: {text!r}"


def in_html(source: str) -> list[tuple[int, str]]:
    """Return the prose of a page's template, and of what its tags say, as (line, text)."""
    blank = re.compile(r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}|<style.*?</style>|<!--.*?-->", re.S)
    text = blank.sub(lambda found: HOLE + "\n" * found[0].count("\n"), source)
    spoken = re.compile(r"""(?:alt|title|placeholder|aria-label)=["']([^"']*)""")
    told = [(one.start(1), one[1]) for one in spoken.finditer(text)]
    told += [(one.start(1), one[1]) for one in re.finditer(r">([^<>]+)<", text)]
    return [
        (text.count("\n", 0, start) + 1, " ".join(said.replace(HOLE, "{}").split()))
        for start, said in sorted(told)
        if is_prose(" ".join(said.split()))
    ]


# A text in a script, and whether it is handed to what looks for parts of a page.
SCRIPT_COMMENT = re.compile(r"^\s*//[^\n]*$|/\*.*?\*/", re.M | re.S)
SCRIPT_TEXT = re.compile(
    r"""(?P<asks>(?:querySelector(?:All)?|closest|matches|matchMedia)(?:\?\.)?\(\s*)?"""
    r"""(?:"(?P<a>(?:[^"\\\n]|\\.)*)"|'(?P<b>(?:[^'\\\n]|\\.)*)'|`(?P<c>(?:[^`\\]|\\.)*)`)"""
)


def in_script(source: str) -> list[tuple[int, str]]:
    """Return the prose in the texts of a page's script, as (line, text)."""
    code = SCRIPT_COMMENT.sub(lambda found: "\n" * found[0].count("\n"), source)
    lines, found = code.split("\n"), []
    for one in SCRIPT_TEXT.finditer(code):
        said = re.sub(r"\$\{[^{}]*\}", HOLE, one["a"] or one["b"] or one["c"] or "")
        number = code.count("\n", 0, one.start()) + 1
        if is_prose(said) and not one["asks"] and MARK not in lines[number - 1]:
            found.append((number, said.replace(HOLE, "{}")))
    return found
