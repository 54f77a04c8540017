// Taps on their way to the ledger. Each is kept in the browser under a key of its own until it is
// answered, so that neither a dead server nor a reload loses one; its id makes it count once.

const LONGEST_WAIT = 4000;
const MOST = 50;

const newId = () => crypto.randomUUID?.() ?? [...crypto.getRandomValues(new Uint8Array(16))].map((one) => one.toString(16).padStart(2, "0")).join("");

/** Return the name of this device, made up once: what sort it is, and two letters. */
export function deviceName() {
  const known = localStorage.getItem("boxwright.device");
  if (known) return known;
  const touch = matchMedia("(pointer: coarse)").matches;
  const sort = !touch ? "laptop" : Math.min(screen.width, screen.height) < 600 ? "phone" : "tablet";
  const letters = "abcdefghjkmnpqrstuvwxyz23456789";
  const name = `${sort}-${[...crypto.getRandomValues(new Uint8Array(3))].map((one) => letters[one % letters.length]).join("")}`;
  localStorage.setItem("boxwright.device", name);
  return name;
}

export class Taps {
  /** `answered` hears what became of each tap, `waiting` how many are not answered yet. */
  constructor(address, session, { answered = () => {}, waiting = () => {}, gone = () => {} } = {}) {
    Object.assign(this, { address, answered, waiting, gone, sending: false, wait: 500, asked: new Map() });
    this.prefix = `boxwright.tap.${session}.`;
    addEventListener("online", () => this.send());
    this.send();
  }

  /** Note something; the promise gives its answer, whenever that comes. */
  tap(type, data) {
    const one = { type, data, id: newId(), device: deviceName(), rights: "teacher", at: Date.now() };
    const number = String(this.count = (this.count ?? 0) + 1).padStart(6, "0");
    localStorage.setItem(`${this.prefix}${one.at}.${number}.${one.id}`, JSON.stringify(one));
    const promise = new Promise((done) => this.asked.set(one.id, done));
    this.send();
    return promise;
  }

  /** Wait until all is answered, but not for long. */
  async quiet() {
    for (let look = 0; look < 20 && this.keys().length; look += 1) await new Promise((done) => setTimeout(done, 100));
  }

  keys() {
    const found = [];
    for (let at = 0; at < localStorage.length; at += 1) {
      const key = localStorage.key(at);
      if (key.startsWith(this.prefix)) found.push(key);
    }
    return found.sort();
  }

  async send() {
    if (this.sending) return;
    clearTimeout(this.later);
    const keys = this.keys().slice(0, MOST);
    if (!keys.length) { this.waiting(0); return; }
    this.sending = true;
    const done = await this.post(keys);
    this.sending = false;
    if (done) this.wait = 500;
    else {
      this.waiting(this.keys().length);
      this.later = setTimeout(() => this.send(), this.wait);
      this.wait = Math.min(2 * this.wait, LONGEST_WAIT);
      return;
    }
    if (this.keys().length) this.send();
    else this.waiting(0);
  }

  /** Send what stands under `keys`; true where it was answered. */
  async post(keys) {
    const kept = keys.map((key) => [key, localStorage.getItem(key)]).filter(([, text]) => text);
    const taps = kept.map(([, text]) => {
      const { at, ...tap } = JSON.parse(text);
      return { ...tap, happened_ms: Math.min(0, Math.max(at - Date.now(), -600000000)) };
    });
    if (!taps.length) return true;
    let answer;
    try {
      answer = await fetch(this.address, {
        method: "POST",
        headers: { "Content-Type": "application/json", Accept: "application/json" },
        body: JSON.stringify({ taps }),
        signal: AbortSignal.timeout(10000),
      });
      if (!answer.ok) return this.refused(answer, kept);
      for (const one of (await answer.json()).answers) this.settle(one, kept);
      return true;
    } catch {
      return false;
    }
  }

  settle(one, kept) {
    const key = kept.find(([name]) => name.endsWith(one.id))?.[0];
    if (key) localStorage.removeItem(key);
    this.asked.get(one.id)?.(one);
    this.asked.delete(one.id);
    this.answered(one);
  }

  /** The whole batch was refused: for good where there is no such session, else for now. */
  async refused(answer, kept) {
    const { problems = [] } = await answer.json();
    if (answer.status === 404 || problems.some((one) => one.code === "live.no-session")) {
      for (const [key] of kept) localStorage.removeItem(key);
      this.gone();
      return true;
    }
    return false;
  }
}
