"""Compiles every catalogue of messages: each NAME.po gets its NAME.mo beside it.

    python tools/catalogues.py          writes what changed
    python tools/catalogues.py --check  writes nothing; tells what is not up to date

The result depends on the catalogue alone, so that it can be committed and held against it.
"""

import sys
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog, Message
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

ROOT = Path(__file__).resolve().parent.parent
LOCALE = ROOT / "src" / "boxwright" / "locale"


class Bare(Catalog):
    """A catalogue whose header holds what gettext reads, hence no date and no tool's version."""

    def __iter__(self) -> Iterator[Message]:
        """Yield the header, then the messages."""
        entries = super().__iter__()
        next(entries)
        header = {
            "Language": self.locale_identifier,
            "Plural-Forms": self.plural_forms,
            "Content-Type": "text/plain; charset=UTF-8",
        }
        yield Message("", "".join(f"{name}: {value}\n" for name, value in header.items()))
        yield from entries


def read(source: Path) -> Catalog:
    """Return one catalogue; its language is the name of the folder two above."""
    with source.open("rb") as file:
        return read_po(file, locale=source.parent.parent.name, abort_invalid=True)


def compiled(source: Path) -> bytes:
    """Return what the .mo of one catalogue must hold."""
    found = read(source)
    bare = Bare(locale=found.locale, charset="utf-8")
    for message in found:
        if message.id:
            bare[message.id] = message
    out = BytesIO()
    write_mo(out, bare)
    return out.getvalue()


def stale(locale: Path = LOCALE) -> dict[Path, bytes]:
    """Return the .mo files under `locale` that are missing or old, and what they must hold."""
    found = {}
    for source in sorted(locale.glob("*/LC_MESSAGES/*.po")):
        target, wanted = source.with_suffix(".mo"), compiled(source)
        if not target.exists() or target.read_bytes() != wanted:
            found[target] = wanted
    return found


def orphans(locale: Path = LOCALE) -> list[Path]:
    """Return the .mo files under `locale` whose catalogue is gone."""
    targets = sorted(locale.glob("*/LC_MESSAGES/*.mo"))
    return [target for target in targets if not target.with_suffix(".po").exists()]


def main(arguments: list[str]) -> int:
    """Write, or only tell, what is not up to date; 1 if told and there was something."""
    found, lonely = stale(), orphans()
    for path in [*found, *lonely]:
        print(path.relative_to(ROOT))
    if arguments == ["--check"]:
        return 1 if found or lonely else 0
    for target, wanted in found.items():
        target.write_bytes(wanted)
    for target in lonely:
        target.unlink()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
