"""The tags of several PDFs in one tree, by which a screen reader finds its way through them all.

A page and whatever else is tagged carries a number under which the tree knows it. Those of
each further PDF go on where the numbers of the one before it ended.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pikepdf

NUMBERED = ("/StructParents", "/StructParent")


class Tags:
    """One tree in `whole`, to which those of other PDFs are added, each after its pages."""

    def __init__(self, whole: pikepdf.Pdf) -> None:
        """Begin with an empty document."""
        from pikepdf import Array, Dictionary, Name

        self.whole = whole
        self._next = 0
        tree = Dictionary(Type=Name.StructTreeRoot, RoleMap=Dictionary())
        self._root: Any = whole.make_indirect(tree)
        head = Dictionary(Type=Name.StructElem, S=Name.Document, P=self._root, K=Array())
        self._document: Any = whole.make_indirect(head)
        self._root.K = self._document
        self._root.ParentTree = whole.make_indirect(Dictionary(Nums=Array()))
        whole.Root.StructTreeRoot = self._root
        whole.Root.MarkInfo = Dictionary(Marked=True)

    def add(self, part: pikepdf.Pdf) -> None:
        """Append the pages of `part`, and what its tags say of them."""
        for one in _numbered(part):
            for key in NUMBERED:
                if key in one:
                    one[key] = int(one[key]) + self._next
        self.whole.pages.extend(part.pages)
        tree: Any = self.whole.copy_foreign(part.Root.StructTreeRoot)
        self._take_numbers(tree)
        for element in _listed(tree.K):
            for inner in _listed(element.K):
                inner.P = self._document
                self._document.K.append(inner)
        self._root.RoleMap.update(tree.get("/RoleMap", {}))

    def _take_numbers(self, tree: Any) -> None:
        from pikepdf import NumberTree

        first = self._next
        for number, elements in NumberTree(tree.ParentTree).items():
            self._root.ParentTree.Nums.extend((first + number, elements))
            self._next = max(self._next, first + number + 1)
        self._root.ParentTreeNextKey = self._next


def _numbered(pdf: pikepdf.Pdf) -> Iterator[Any]:
    """Yield whatever in a PDF has a number of its tags' tree."""
    from pikepdf import Dictionary, Stream

    found = (one for one in pdf.objects if isinstance(one, Dictionary | Stream))
    return (one for one in found if any(key in one for key in NUMBERED))


def _listed(kids: Any) -> list[Any]:
    """Return the children of an element: an array, or a single one."""
    from pikepdf import Array

    return list(kids) if isinstance(kids, Array) else [kids]
