// A session as it comes down to a page: all of it, then what changes; and its clock, which goes on
// while nobody tells it anything. Made for the hour and the wall alike.

const GONE = 4404;
const FIRST_WAIT = 300;
const LONGEST_WAIT = 3000;
const SILENT = 7000; // the server says something every two seconds

/** The clock of a session: right from the last message on, by a counter that nobody sets. */
export class PlayClock {
  constructor(told) { this.tell(told); }

  tell(told) {
    this.told = told;
    this.at = performance.now();
    this.wall = Date.now();
  }

  /** Milliseconds since the last message; the wall tells where the counter slept. */
  get passed() {
    return Math.max(performance.now() - this.at, Math.min(Date.now() - this.wall, 3600000), 0);
  }

  get status() { return this.told.status; }
  get played() { return this.told.played_ms + (this.status === "running" ? this.passed : 0); }
  get left() { return this.told.total_ms - this.played; }
  get now() { return this.told.now_ms + this.passed; }

  /** When play ends; while the clock is held that goes away from us. */
  get end() { return this.told.end_ms + (this.status === "running" || this.status === "ended" ? 0 : this.passed); }
  get start() { return this.told.start_ms + (this.status === "not-started" ? this.passed : 0); }
  get tidy() { return this.told.tidy_ms + (this.status === "not-started" ? this.passed : 0); }
  get bell() { return this.told.bell_ms + (this.status === "not-started" ? this.passed : 0); }
}

/** Return a time of day as people write it here. */
export function timeOfDay(ms) {
  return new Date(ms).toLocaleTimeString([], { hour: "numeric", minute: "2-digit" });
}

/** Return minutes and seconds as a clock shows them; never below nought. */
export function onClock(ms) {
  const seconds = Math.max(0, Math.ceil(ms / 1000));
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

/** Put pieces of the page in place where they differ; what had the focus keeps it. */
export function putPieces(pieces) {
  const held = document.activeElement?.id;
  let lost = null;
  for (const [id, html] of Object.entries(pieces)) {
    const home = document.getElementById(id);
    if (!home || home.dataset.html === html) continue;
    const had = home.contains(document.activeElement);
    home.innerHTML = html;
    home.dataset.html = html;
    if (had) lost = home;
  }
  if (!lost) return false;
  const again = (held && document.getElementById(held)) || lost.querySelector("button");
  again?.focus({ preventScroll: true });
  return true;
}

/** Listen to a session for as long as the page is there. */
export class Wire {
  constructor(address, { heard, cut = () => {}, gone = () => location.reload() }) {
    Object.assign(this, { address, heard, cut, gone, seq: -1, wait: FIRST_WAIT });
    this.open();
    // A page that comes back from sleep, or out of the browser's memory, must not trust its socket.
    addEventListener("pageshow", (event) => { if (event.persisted) this.again(); });
    addEventListener("online", () => this.again());
    document.addEventListener("visibilitychange", () => { if (!document.hidden && this.silent) this.again(); });
    setInterval(() => { if (this.silent) this.again(); }, SILENT / 2);
  }

  get silent() { return performance.now() - this.lately > SILENT || Date.now() - this.latelyWall > SILENT; }

  open() {
    clearTimeout(this.later);
    this.noticed();
    const socket = new WebSocket(this.address.replace(/^http/, "ws"));
    this.socket = socket;
    let first = true;
    socket.addEventListener("message", (event) => {
      if (socket !== this.socket) return;
      this.noticed();
      this.wait = FIRST_WAIT;
      const told = JSON.parse(event.data);
      if (first || told.seq >= this.seq) {
        this.seq = told.seq;
        this.heard(told, first);
      }
      first = false;
    });
    socket.addEventListener("close", (event) => {
      if (socket !== this.socket) return;
      if (event.code === GONE) { this.gone(); return; }
      this.cut();
      this.later = setTimeout(() => this.open(), this.wait);
      this.wait = Math.min(2 * this.wait, LONGEST_WAIT);
    });
  }

  noticed() {
    this.lately = performance.now();
    this.latelyWall = Date.now();
  }

  again() {
    const old = this.socket;
    this.socket = null;
    old.close();
    this.open();
  }
}
