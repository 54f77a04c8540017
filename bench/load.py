"""How soon a tap is on every page: twelve groups, forty pages that listen.

    .venv/bin/python bench/load.py [--json] [--taps 300] [--pages 40]

A real `boxwright session` serves one session of twelve groups; pages hold sockets, every fourth
that of a wall, and twelve connections tap in turn, about eight times a second in all. A time runs
from before a tap is sent until one page has the message with its number; there is one for each tap
and page. The goal: `p99_ms` at most 100. The clients run on the same machine and cost time, too,
and whatever else runs there; `empty_ms` is how long a thread that sleeps a millisecond really
sleeps meanwhile (its 99th percentile), which tells how busy the machine is.
"""

from __future__ import annotations

import argparse
import asyncio
import json
import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path
from statistics import quantiles
from uuid import uuid4

sys.path.insert(0, str(Path(__file__).resolve().parent))

from serving import HOST, NAME, Asking, Process, printed_demo

GROUPS = tuple(str(n) for n in range(1, 13))
EVERY_S = 0.125
GOAL_MS = 100.0
WARM_UP = 24
WALL = 4  # every fourth page


def opened(game: Path, ledger: Path) -> str:
    """Open a session of twelve groups on the demo's printed set, and return it."""
    from boxwright.build.current import current_editions
    from boxwright.choose.edition import named
    from boxwright.ledger.store import Ledger
    from boxwright.live.beginning import begin
    from boxwright.live.clock import SystemClock
    from boxwright.live.desk import Desk

    made = current_editions(game)[0]
    stickers = dict.fromkeys(GROUPS, made.stickers["1"])
    edition = named(replace(made, groups=GROUPS, stickers=stickers))
    names = {group: f"Table {group}" for group in GROUPS}
    with Ledger(ledger) as kept:
        return begin(Desk(kept, SystemClock()), [edition], names, 2400, "try-out", "bench")


class Page:
    """One page: when it had the first message with at least each number."""

    def __init__(self) -> None:
        self.had: list[tuple[int, float]] = []
        self.there = asyncio.Event()

    async def listen(self, address: str) -> None:
        """Take down what comes until the end."""
        from websockets.asyncio.client import connect

        async with connect(address, max_size=None) as socket:
            async for text in socket:
                at = time.perf_counter()
                seq = json.loads(text)["seq"]
                if not self.had or seq > self.had[-1][0]:
                    self.had.append((seq, at))
                self.there.set()

    def when(self, seq: int) -> float | None:
        """Return when it had what the tap numbered `seq` did; None where it never came."""
        return next((at for number, at in self.had if number >= seq), None)


def tap_of(number: int) -> dict[str, object]:
    """Return a tap of one group after the other: a code tried, a note, a lock."""
    group = GROUPS[number % len(GROUPS)]
    kinds = (
        ("code.tried", {"group": group, "lock": "sluice", "right": False}),
        ("note.made", {"group": group, "text": f"tap {number}"}),
        ("lock.opened", {"group": group, "lock": "race"}),
    )
    kind, data = kinds[number // len(GROUPS) % len(kinds)]
    return {"type": kind, "data": data, "id": str(uuid4()), "device": "bench"}


async def tapped(port: int, session: str, taps: int) -> list[tuple[int, float]]:
    """Send taps at an even pace, and return each one's number and when it was sent."""
    hands = [Asking(port) for _ in GROUPS]
    free = [asyncio.Lock() for _ in GROUPS]

    async def one(number: int) -> tuple[int, float]:
        hand = number % len(GROUPS)
        async with free[hand]:
            at = time.perf_counter()
            body = {"taps": [tap_of(number)]}
            answer = await asyncio.to_thread(
                hands[hand].post, f"/games/{NAME}/taps/{session}", body
            )
            return answer["answers"][0]["seq"], at

    sent = []
    for number in range(taps):
        sent.append(asyncio.create_task(one(number)))
        await asyncio.sleep(EVERY_S)
    return await asyncio.gather(*sent)


async def naps(found: list[float]) -> None:
    """Measure how late a sleep of a millisecond ends, over and over."""
    while True:
        before = time.perf_counter()
        await asyncio.to_thread(time.sleep, 0.001)
        found.append(1000 * (time.perf_counter() - before))
        await asyncio.sleep(0.05)


async def played(port: int, session: str, taps: int, count: int) -> dict[str, float]:
    """Let pages listen while taps come in, and return what was measured."""
    pages, busy = [Page() for _ in range(count)], []
    base = f"ws://{HOST}:{port}/games/{NAME}/live/{session}?page="
    tasks = [
        asyncio.create_task(page.listen(base + ("hour" if at % WALL else "wall")))
        for at, page in enumerate(pages)
    ]
    await asyncio.gather(*(page.there.wait() for page in pages))
    tasks.append(asyncio.create_task(naps(busy)))
    sent = (await tapped(port, session, WARM_UP + taps))[WARM_UP:]
    await asyncio.sleep(1.0)
    for task in tasks:
        task.cancel()
    await asyncio.gather(*tasks, return_exceptions=True)
    when = [(page.when(seq), at) for seq, at in sent for page in pages]
    times = [1000 * (had - at) for had, at in when if had is not None]
    cuts = quantiles(times, n=100)
    return {
        "taps": taps,
        "pages": count,
        "missed": len(when) - len(times),
        "p50_ms": round(cuts[49], 1),
        "p99_ms": round(cuts[98], 1),
        "empty_ms": round(quantiles(busy, n=100)[98], 1),
    }


def measure(taps: int, pages: int) -> dict[str, float]:
    """Return what was measured with so many taps and pages."""
    with tempfile.TemporaryDirectory() as folder:
        work = Path(folder)
        game, ledger = printed_demo(work), work / "ledger.db"
        session = opened(game, ledger)
        process = Process(game, ledger, work / "compiled")
        process.start()
        try:
            return asyncio.run(played(process.port, session, taps, pages))
        finally:
            process.kill()


def main() -> None:
    """Measure and print; exit 1 where the goal is missed or a page did not hear of a tap."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--json", action="store_true")
    options.add_argument("--taps", type=int, default=300)
    options.add_argument("--pages", type=int, default=40)
    chosen = options.parse_args()
    found = measure(chosen.taps, chosen.pages)
    if chosen.json:
        print(json.dumps(found, indent=1))
    else:
        print(", ".join(f"{name} {n}" for name, n in found.items()))
    sys.exit(1 if found["missed"] or found["p99_ms"] > GOAL_MS else 0)


if __name__ == "__main__":
    main()
