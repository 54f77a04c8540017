"""No words that a person reads stand in code or templates: they live in the catalogues."""

import pytest

from tests.house import prose, source


def test_python_holds_no_words_for_people() -> None:
    texts = source.package(".py")
    fixed = prose.terms(texts.values())
    found = {name: prose.in_python(text, fixed) for name, text in texts.items()}
    assert list(prose.reported(found)) == []


def test_templates_hold_no_words_for_people() -> None:
    found = {name: prose.in_typst(text) for name, text in source.package(".typ").items()}
    assert list(prose.reported(found)) == []


def test_pages_hold_no_words_for_people() -> None:
    found = {name: prose.in_html(text) for name, text in source.package(".html").items()}
    assert list(prose.reported(found)) == []


def test_scripts_hold_no_words_for_people() -> None:
    found = {name: prose.in_script(text) for name, text in source.package(".js").items()}
    assert list(prose.reported(found)) == []


@pytest.mark.parametrize(
    "code",
    [
        'x = "The lock jams."',
        'x = f"{n} locks jam"',
        'x = f"Page {n} of {m}"',
        'tell("Zu öffnen")',
        'raise Refused("too wide")',
        'class Told(str):\n    def __init__(self):\n        super().__init__("a b cd")',
        'echo(help="Writes all print-outs.")',
        'def f():\n    return "one two"',
        'def f():  # not read by people\n    return "one two"',
    ],
)
def test_prose_in_python_is_found(code: str) -> None:
    assert prose.in_python(code)


@pytest.mark.parametrize(
    "code",
    [
        'def f() -> "dict[str, Any]":\n    """What it does."""',
        'class A:\n    """What it is."""\n    x: int\n    """What it means."""',
        'x = "kebab-case"; y = f"{a}: {b}"',
        'raise ValueError("a refusal needs a problem")',
        'raise contract.MisprintError(f"a refusal needs {x}") from error',
        'class GaveUp(Exception):\n    def __init__(self):\n        super().__init__("a b cd")',
        'assert x, "this must hold"',
        're.compile("one two"); re.sub("a word", "", x)',
        'x: Literal["try by hand"] = "try by hand"',
        'x: TypeAlias = "Any, Other"',
        'x = cast("dict[str, Any]", y)',
        'x = "SELECT name FROM locks"  # not read by people',
        'x = {  # not read by people\n    "a": "one two",\n    "b": "three four",\n}',
    ],
)
def test_what_nobody_reads_is_left_alone(code: str) -> None:
    assert prose.in_python(code, prose.terms([code])) == []


@pytest.mark.parametrize(
    "code",
    [
        "Write your code here.",
        "#let draw(sheet) = [Write it here]",
        '#let draw(sheet) = text("Write it here")',
        "#let f(x) = {\n  if x { [Page #x of #x.at(0) or so] }\n}",
        "#strong[Set the] lock",
        "#if x [\n  Look\n  here\n]",
        "#text(size: 3pt)[two words]",
    ],
)
def test_prose_in_templates_is_found(code: str) -> None:
    assert prose.in_typst(code)


@pytest.mark.parametrize(
    "code",
    [
        "// A comment of several words.\n/* and another one */",
        '#import "page.typ": sign, foot\n#set text(font: "Inter")',
        '#let draw(sheet) = {\n  // one two\n  panic("no such part")\n  sheet.at("title")\n}',
        '#assert(x == 1, message: "one part, called sheet")',
        "#let f(x) = if x in (0, 1) or calc.rem(x, 5) == 0 { 1pt } else { 2pt }",
        "#let f(x) = grid(columns: 2, [], [#x], [#x.name: #x.at(1)])",
        '#set text(font: "Noto Sans") // not read by people',
        "#show heading: set block(above: 0pt)\n#let a = 1",
    ],
)
def test_templates_without_words_pass(code: str) -> None:
    assert prose.in_typst(code) == []


def test_a_line_is_named() -> None:
    assert prose.in_python('a = 1\n\nb = "two words"') == [(3, "two words")]
    assert prose.in_typst("#let a = 1\n#let b = [two words]") == [(2, "two words")]


@pytest.mark.parametrize(
    "code",
    ["<p>Add a box</p>", '<img alt="A tin box">', "<p>Add {{ name }} to the\n  shelf</p>"],
)
def test_prose_in_pages_is_found(code: str) -> None:
    assert prose.in_html(code)


@pytest.mark.parametrize(
    "code",
    ['<p class="one two">{{ t("a.b") }}</p>', "{# two words #}<p>{% if a and b %}x{% endif %}</p>"],
)
def test_pages_without_words_pass(code: str) -> None:
    assert prose.in_html(code) == []


@pytest.mark.parametrize(
    "code",
    [
        'tell("The lock jams");',
        '// what it does\ntell("The lock jams");\n// and so on',
        "/* one\n * two */ tell('The lock jams');",
        "tell(`The lock ${name} jams`);",
    ],
)
def test_prose_in_scripts_is_found(code: str) -> None:
    assert prose.in_script(code)


@pytest.mark.parametrize(
    "code",
    [
        '// two words\nhome.querySelectorAll("input, select");',
        'if (matchMedia("(prefers-reduced-motion: reduce)").matches) stop();',
        'row.closest("article, section").remove();',
        'send(`${home}/games/${name}`, "POST");',
        'const sort = "one of ";  // not read by people',
    ],
)
def test_scripts_without_words_pass(code: str) -> None:
    assert prose.in_script(code) == []


def test_every_script_is_read_to_its_end() -> None:
    """A comment taken for more than it is would hide whatever follows."""
    for name, text in source.package(".js").items():
        assert prose.in_script(f'{text}\ntell("The lock jams");'), name
