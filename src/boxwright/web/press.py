"""Laying out for pages: two threads, each with its compiler kept warm."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from typing import TypeVar

T = TypeVar("T")
THREADS = 2


@cache
def _press() -> ThreadPoolExecutor:
    return ThreadPoolExecutor(THREADS, "page-press")


async def pressed(work: Callable[[], T]) -> T:
    """Return what `work` gives, done on the press; whatever it raises comes along."""
    return await asyncio.get_running_loop().run_in_executor(_press(), work)
