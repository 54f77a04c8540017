"""Taps lost or doubled when the studio is killed at random moments.

    .venv/bin/python bench/crash.py [--json] [--kills 200] [--clients 4]

A real `boxwright session` takes taps from several clients at once, as pages send them, and is
killed by SIGKILL again and again, a random moment after it began to answer. Each client keeps a tap
until it is answered and sends it again to the studio that was started on the same ledger. In the
end every tap that was answered must stand in the ledger under the number that was answered, and
every tap there once: `lost` and `doubled` must be 0. `resent` counts taps that had to be sent
again, `swallowed` those among them that the studio had kept before it died, so that only their
answer was gone: were that 0, nothing would have been tried.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
import tempfile
import threading
import time
from bisect import bisect
from collections import Counter
from pathlib import Path
from uuid import uuid4

sys.path.insert(0, str(Path(__file__).resolve().parent))

from serving import NAME, Asking, Process, printed_demo

from boxwright.ledger.event import wall_ms
from boxwright.ledger.store import Ledger
from boxwright.live.state import fold

LONGEST_LIFE_S = 0.5
MOST_IN_ONE = 3
MOST_WAITING = 6  # nobody goes on tapping for long while nothing moves
REST_S = 0.05


class Client:
    """One page that taps: each tap with an id and a text of its own, kept until it is answered."""

    def __init__(self, number: int, port: int, session: str) -> None:
        self.number, self.address = number, f"/games/{NAME}/taps/{session}"
        self.asking = Asking(port, timeout=5.0)
        self.dice = random.Random(number)
        self.waiting: list[dict[str, object]] = []
        self.tried: set[str] = set()
        self.made = 0
        self.resent: set[str] = set()
        self.answered: dict[str, int] = {}
        self.answered_at: dict[str, float] = {}
        self.up = threading.Event()
        self.over = threading.Event()
        self.thread = threading.Thread(target=self.run, daemon=True)

    def run(self) -> None:
        """Tap while it may, then send until nothing is left."""
        while not (self.over.is_set() and not self.waiting):
            self.up.wait(0.5)
            if not self.over.is_set() and len(self.waiting) < MOST_WAITING:
                self.waiting += [self.tap() for _ in range(self.dice.randint(1, MOST_IN_ONE))]
            self.send()
            time.sleep(REST_S)

    def tap(self) -> dict[str, object]:
        """Return one more tap."""
        self.made += 1
        text = f"client {self.number} tap {self.made}"
        data = {"group": str(1 + self.made % 2), "text": text}
        return {"type": "note.made", "data": data, "id": str(uuid4()), "device": "bench"}

    def send(self) -> None:
        """Send what waits; what is not answered goes on waiting."""
        batch = self.waiting[:]
        ids = {str(one["id"]) for one in batch}
        self.resent |= self.tried & ids
        self.tried |= ids
        try:
            answers = self.asking.post(self.address, {"taps": batch})["answers"]
        except OSError:
            return
        self.answered |= {one["id"]: one["seq"] for one in answers}
        self.answered_at |= dict.fromkeys(ids, time.time())
        self.waiting = self.waiting[len(batch) :]


def measure(kills: int, clients: int) -> dict[str, int]:
    """Kill the studio so often, and return what became of the taps."""
    with tempfile.TemporaryDirectory() as folder:
        work = Path(folder)
        process = Process(printed_demo(work), work / "ledger.db", work / "compiled")
        process.start()
        body = {"names": {"1": "A", "2": "B"}, "minutes": 600}
        Asking(process.port).post(f"/games/{NAME}/hour/begin", body)
        session = Asking(process.port).get(f"/games/{NAME}/wall/now")["session"]
        pages = [Client(number, process.port, session) for number in range(clients)]
        for page in pages:
            page.thread.start()
        starts = kill_often(process, pages, kills)
        found = judged(work / "ledger.db", session, pages, starts)
        process.kill()
        return {"kills": kills, **found}


def kill_often(process: Process, pages: list[Client], kills: int) -> list[float]:
    """Kill and start again, then let every page send what is left; return when each life began."""
    dice, starts = random.Random(1), [time.time()]
    for _ in range(kills):
        for page in pages:
            page.up.set()
        time.sleep(dice.uniform(0, LONGEST_LIFE_S))
        process.kill()
        for page in pages:
            page.up.clear()
        starts.append(time.time())
        process.start()
    for page in pages:
        page.over.set()
        page.up.set()
    for page in pages:
        page.thread.join(120)
        assert not page.thread.is_alive(), "a page could not send what was left"
    return starts


def judged(ledger: Path, session: str, pages: list[Client], starts: list[float]) -> dict[str, int]:
    """Return what is lost or doubled, by the ledger's own file."""
    with Ledger(ledger) as opened:
        events = opened.events(session)
    at = {event.id: event.seq for event in events}
    answered = {id: seq for page in pages for id, seq in page.answered.items()}
    made = {f"client {page.number} tap {n}" for page in pages for n in range(1, page.made + 1)}
    texts = Counter(note.text for note in fold(events).notes)
    numbers = [event.seq for event in events]
    kept_at = {event.id: wall_ms(event.wall) / 1000 for event in events}
    told_at = {id: at for page in pages for id, at in page.answered_at.items()}
    between = (
        bisect(starts, told_at[id]) > bisect(starts, kept_at[id])
        for id in answered
        if id in kept_at
    )
    return {
        "taps": len(made),
        "answered": len(answered),
        "resent": sum(len(page.resent) for page in pages),
        "swallowed": sum(between),
        "lost": sum(at.get(id) != seq for id, seq in answered.items()) + len(made - texts.keys()),
        "doubled": sum(n - 1 for n in texts.values()) + len(numbers) - len(set(numbers)),
    }


def main() -> None:
    """Measure and print; exit 1 where a tap was lost or doubled, or none was sent again."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--json", action="store_true")
    options.add_argument("--kills", type=int, default=200)
    options.add_argument("--clients", type=int, default=4)
    chosen = options.parse_args()
    found = measure(chosen.kills, chosen.clients)
    bad = found["lost"] or found["doubled"] or not found["swallowed"]
    if chosen.json:
        print(json.dumps(found, indent=1))
    else:
        print(", ".join(f"{name} {n}" for name, n in found.items()))
    sys.exit(1 if bad else 0)


if __name__ == "__main__":
    main()
