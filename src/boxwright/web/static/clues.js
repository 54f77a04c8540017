// The clue bench: each change of a field is tried at once, unsaved, and shown as it will print.
// What is typed stays in the window's own store until it is kept or left.

import { addressOf, clearComplaints, complain, perform, piece, post, show, tell } from "/static/studio.js";
import { Fields } from "/static/clues-fields.js";

const LATER = 500;
const OF_KIND = ["content", "options", "parts"];
const byId = (id) => document.getElementById(id);

// Small sheets come when they are about to be seen.

const seen = new IntersectionObserver((entries) => {
  for (const one of entries) if (one.isIntersecting) { seen.unobserve(one.target); fill(one.target); }
}, { rootMargin: "200px" });

async function fill(home) {
  const html = await piece(home.dataset.sheets);
  if (html === null) home.replaceChildren(byId("sheet-failed").content.cloneNode(true));
  else home.innerHTML = html;
}

// What pupils could do: fetched when asked for.

async function offer(home, address, asked) {
  const query = new URLSearchParams(asked);
  const html = await piece(`${address}${address.includes("?") ? "&" : "?"}${query}`);
  if (html !== null) home.innerHTML = html;
}

function beginList() {
  const form = byId("new-clue");
  if (!form) return;
  const gives = form.elements.gives;
  const offers = form.querySelector(".offers");
  const doing = form.querySelector(".doing");
  const rest = form.querySelector(".rest");
  gives.addEventListener("change", async () => {
    rest.hidden = true;
    doing.hidden = !gives.value;
    if (!gives.value) return;
    await offer(offers, form.dataset.offers, { gives: gives.value });
    for (const one of offers.querySelectorAll("input")) one.name = "kind";
  });
  offers.addEventListener("change", (event) => {
    rest.hidden = false;
    if (form.elements.content) form.elements.content.value = event.target.dataset.table;
  });
}

// The bench.

class Bench {
  constructor(home) {
    this.home = home;
    this.form = byId("fields");
    this.fields = new Fields(this.form, home.dataset.lock);
    this.words = JSON.parse(byId("bench-words").textContent);
    this.store = `bench ${location.pathname}`;
    this.running = null;
    this.wanted = false;
    this.throw = null;
    this.shown = [];
    this.left = new Map();
    this.kept = JSON.stringify(this.fields.draft());
    this.listen();
    this.restore();
    this.tryIt();
  }

  listen() {
    this.form.addEventListener("input", (event) => this.changed(event));
    this.form.addEventListener("submit", (event) => { event.preventDefault(); this.once(() => this.keep()); });
    byId("leave").addEventListener("click", () => { sessionStorage.removeItem(this.store); show(); });
    byId("others").addEventListener("toggle", () => this.offerOthers());
    byId("other-dice")?.addEventListener("click", () => this.once(() => this.otherDice()));
    byId("dice-next")?.addEventListener("click", () => this.once(() => this.otherDice()));
    byId("dice-drop")?.addEventListener("click", () => this.dropDice());
    byId("dice-keep")?.addEventListener("click", () => this.once(() => this.keepDice()));
  }

  /** Do one thing at a time: a second click while the first is under way does nothing. */
  async once(work) {
    if (this.busy) return;
    this.busy = true;
    try { await work(); } finally { this.busy = false; }
  }

  changed(event) {
    const name = event.target.name;
    if (name === "code_how") this.fields.codeHow();
    if (name === "kind_choice") this.fields.takeKind(event.target.value, event.target.dataset);
    this.mark();
    this.tryIt();
    if (["code", "code_how"].includes(name)) { clearTimeout(this.offering); this.offering = setTimeout(() => this.offerOthers(), LATER); }
  }

  async offerOthers() {
    const others = byId("others");
    if (!others.open) return;
    const asked = { gives: others.dataset.gives, chosen: byId("kind").value };
    if (this.home.dataset.lock) asked.code = this.fields.draft().code;
    await offer(others.querySelector(".offers"), others.dataset.offers, asked);
  }

  /** Say whether all is kept, and hold what is not against a reload. */
  mark(words) {
    const now = this.fields.draft();
    const unkept = JSON.stringify(now) !== this.kept;
    const state = byId("state");
    const text = words ?? (unkept ? state.dataset.unkept : state.dataset.kept);
    if (state.textContent !== text) state.textContent = text;
    byId("keep").classList.toggle("unkept", unkept);
    for (const id of ["keep-it", "leave"]) byId(id).disabled = !unkept;
    if (unkept) sessionStorage.setItem(this.store, JSON.stringify(now));
    else sessionStorage.removeItem(this.store);
    this.unkept = unkept;
    const dice = byId("other-dice");
    if (dice) {
      dice.disabled = unkept;
      byId("dice-help").dataset.plain ??= byId("dice-help").textContent;
      byId("dice-help").textContent = unkept ? this.words.first : byId("dice-help").dataset.plain;
    }
  }

  /** Put back what was typed before a reload; fields of another kind come with the first trial. */
  restore() {
    const held = sessionStorage.getItem(this.store);
    if (!held) { this.mark(); return; }
    const draft = JSON.parse(held);
    this.fields.put(draft);
    this.waiting = draft.kind === byId("kind-fields").dataset.kind ? null : { ...draft, returned: true };
    this.mark(byId("state").dataset.returned);
    if (this.waiting) sessionStorage.setItem(this.store, held);
  }

  // Trying.

  /** Try what stands in the fields now; while one trial runs, only the newest waits. */
  tryIt() {
    if (this.running) this.wanted = true;
    else this.running = this.tryOn().finally(() => { this.running = null; });
    return this.running;
  }

  async tryOn() {
    do {
      this.wanted = false;
      await this.attempt();
    } while (this.wanted && this.home.isConnected);
  }

  asked(more = {}) {
    const draft = this.waiting ?? this.fields.draft();
    const { kind, level, content, options } = draft;
    const hints = draft.hints?.every(Boolean) ? draft.hints : null;
    const asked = { kind, level, content, options, hints, ...more };
    if (!this.waiting) asked.options_of = byId("kind-fields").dataset.kind;
    if (draft.code !== undefined && draft.code !== JSON.parse(this.kept).code) asked.code = draft.code;
    return asked;
  }

  /** Hold what was chosen for the puzzle that is left, and take it up again on coming back. */
  leaveKind(shows) {
    const draft = this.fields.draft();
    if (this.waiting || draft.kind === shows) return;
    const { content, options, parts } = draft;
    this.left.set(shows, { content, options, parts });
    if (this.left.has(draft.kind)) this.waiting = { ...draft, ...this.left.get(draft.kind) };
  }

  async attempt() {
    const shows = byId("kind-fields").dataset.kind;
    this.leaveKind(shows);
    let asked = this.asked({ shows });
    const answer = await post(this.home.dataset.try, asked);
    if (!this.home.isConnected) return;
    this.closeDice();
    const { problems = [], pages = [], fields } = answer.data;
    if (fields) { this.putFields(fields, asked.kind); asked = this.asked(); }
    this.tellProblems([...problems, ...this.ownProblems()]);
    this.home.classList.toggle("outdated", problems.length > 0);
    this.tellOld(problems);
    if (problems.length) { if (!this.shown.length) byId("about").replaceChildren(); return; }
    this.throw = answer.data.throw;
    await this.draw(pages);
    this.home.dispatchEvent(new CustomEvent("bench:drawn", { bubbles: true }));
    clearTimeout(this.fitting);
    if (this.wanted) return;
    const drawn = { ...asked, shows: null };
    this.tellAbout(drawn);
    this.fitting = setTimeout(() => this.fit(drawn), LATER);
  }

  /** Say over the sheet why it is still the one from before; what helps stands at the field. */
  tellOld(problems) {
    const why = problems.map((one) => one.what).join(" ");
    byId("was").textContent = problems.length ? `${why} ${this.shown.length ? this.words.old : ""}`.trim() : "";
  }

  putFields(html, kind) {
    const home = byId("kind-fields");
    home.innerHTML = html;
    home.dataset.kind = kind;
    const draft = this.waiting;
    this.waiting = null;
    if (draft) { this.fields.putContent(draft.content); this.fields.putOptions(draft); }
    this.mark(draft?.returned && byId("state").dataset.returned);
  }

  ownProblems() {
    const hints = this.fields.draft().hints;
    return hints && !hints.every(Boolean) ? [{ what: this.words.three, remedy: "", path: ["hints"], kinds: [] }] : [];
  }

  async draw(pages) {
    const figures = await Promise.all(pages.map(figureOf));
    this.shown = figures;
    byId("sheets").replaceChildren(...(figures.length ? figures : [noPage(this.words.nopage)]));
  }

  /** Tell what is known of the sheet: after it, so that nothing holds the sheet up. */
  async tellAbout(asked) {
    this.about = asked;
    const answer = await fetch(this.home.dataset.about, {
      method: "POST", headers: { "Content-Type": "application/json", Accept: "text/html" }, body: JSON.stringify(asked),
    }).catch(() => null);
    if (!answer?.ok || this.about !== asked || !this.home.isConnected) return;
    const html = await answer.text();
    const open = byId("working")?.open;
    byId("about").innerHTML = html;
    if (open && byId("working")) byId("working").open = true;
  }

  async fit(asked) {
    const answer = await post(this.home.dataset.fits, asked);
    if (this.home.isConnected && answer.ok) this.tellAt(byId("fits"), answer.data.problems);
  }

  /** Put each problem beside the field that it is about; the nearest that there is. */
  tellProblems(problems) {
    const slots = [...this.form.querySelectorAll("[data-told]")];
    const by = new Map(slots.map((slot) => [slot, []]));
    for (const one of problems) by.get(slotFor(slots, one.path ?? [])).push(one);
    for (const [slot, found] of by) this.tellAt(slot, found);
    const told = problems.map((one) => (one.path ?? []).join("."));
    for (const control of this.form.elements) {
      if (!control.name) continue;
      const wrong = told.some((path) => path === control.name || path.startsWith(`${control.name}.`));
      if (wrong) control.setAttribute("aria-invalid", "true");
      else control.removeAttribute("aria-invalid");
    }
  }

  tellAt(slot, problems) {
    const text = JSON.stringify(problems);
    if (slot.dataset.says === text) return;
    slot.dataset.says = text;
    slot.setAttribute("role", "status");
    slot.replaceChildren(...problems.map((one) => this.problem(one)));
  }

  problem(one) {
    const box = element("div", "problem");
    box.append(element("p", "what", one.what));
    if (one.remedy) box.append(element("p", "remedy", one.remedy));
    if (one.where) box.append(element("p", "where", one.where));
    const row = element("p", "row");
    for (const kind of one.kinds ?? []) {
      const button = byId("take-kind").content.firstElementChild.cloneNode(true);
      button.textContent = kind.title;
      button.addEventListener("click", () => { this.fields.takeKind(kind.name, kind); this.mark(); this.tryIt(); byId("others").querySelector("summary").focus(); });
      row.append(button);
    }
    if (row.childElementCount) box.append(row);
    return box;
  }

  // Keeping.

  /** Send what was changed: the lock's code first, then the fields of this way. */
  async keep() {
    if (byId("kind").value !== byId("kind-fields").dataset.kind) await this.running; // its fields are on their way
    const draft = this.fields.draft();
    const before = JSON.parse(this.kept);
    const changed = Object.keys(draft).filter((name) => JSON.stringify(draft[name]) !== JSON.stringify(before[name]));
    clearComplaints(this.form);
    if (draft.hints && !draft.hints.every(Boolean)) { this.tellProblems(this.ownProblems()); byId("hints-own").open = true; return; }
    if (changed.includes("code") && !await this.keepCode(draft.code, changed.length > 1)) return;
    const fields = new Set(changed.filter((name) => name !== "code"));
    if (!fields.size) return;
    if (fields.has("kind")) for (const name of OF_KIND) fields.add(name); // all else of the old one goes
    const args = { clue: this.home.dataset.clue, version: this.home.dataset.way };
    for (const name of fields) args[name] = filed(draft[name]);
    await this.send("version.change", args);
  }

  /** Send a command; the page that comes after it must not find what is kept now as unkept. */
  async send(command, args) {
    sessionStorage.removeItem(this.store);
    const answer = await perform(command, args, { home: this.form });
    if (!answer.ok && this.home.isConnected) this.mark();
    return answer.ok;
  }

  async keepCode(code, more) {
    const args = { id: this.home.dataset.lock, field: "code", value: code === "auto" ? null : code };
    if (!more) return this.send("thing.set", args);
    const answer = await post(addressOf("thing.set"), args);
    if (answer.ok) {
      document.body.dataset.tag = answer.data.tag;
      this.kept = JSON.stringify({ ...JSON.parse(this.kept), code });
    } else complain(this.form, (answer.data.problems ?? []).map((one) => ({ ...one, path: ["code"] })));
    return answer.ok;
  }

  // Other dice.

  async otherDice() {
    const asked = this.asked({ throw: (this.thrown ?? this.throw ?? 0) + 1 });
    const answer = await post(this.home.dataset.try, asked);
    if (!this.home.isConnected || answer.data.problems?.length || !answer.ok) { if (answer.data.problems) this.tellProblems(answer.data.problems); return; }
    this.thrown = asked.throw;
    const fresh = await Promise.all(answer.data.pages.map(figureOf));
    byId("sheets").replaceChildren(this.side(this.words.now, this.shown), this.side(this.words.new, fresh));
    byId("sheets").classList.add("beside");
    this.home.classList.add("comparing");
    byId("dice-first").hidden = true;
    byId("dice-choice").hidden = false;
    byId("dice-keep").focus({ preventScroll: true });
  }

  side(title, figures) {
    const side = element("div", "side");
    side.append(element("h3", "", title), ...figures.map((one) => one.cloneNode(true)));
    return side;
  }

  closeDice() {
    this.thrown = null;
    byId("sheets").classList.remove("beside");
    this.home.classList.remove("comparing");
    if (!byId("dice-first")) return;
    byId("dice-first").hidden = false;
    byId("dice-choice").hidden = true;
  }

  dropDice() {
    this.closeDice();
    byId("sheets").replaceChildren(...this.shown);
    byId("other-dice").focus({ preventScroll: true });
  }

  async keepDice() {
    const answer = await post(this.home.dataset.throw, { throw: this.thrown });
    if (!answer.ok) { complain(byId("dice-choice"), answer.data.problems ?? []); return; }
    await show(location.href, { focus: "other-dice" });
    tell(answer.data.said);
  }
}

const filed = (value) => (value === null || value === undefined || (typeof value === "object" && !Object.keys(value).length) ? null : value);

function slotFor(slots, path) {
  for (let length = path.length; length >= 0; length -= 1) {
    const slot = slots.find((one) => one.dataset.told === path.slice(0, length).join("."));
    if (slot) return slot;
  }
  return slots[0];
}

function element(name, className, text) {
  const made = document.createElement(name);
  if (className) made.className = className;
  if (text !== undefined) made.textContent = text;
  return made;
}

function noPage(text) {
  return element("p", "no-page", text);
}

/** Return a page's picture with its caption, decoded, so that nothing flickers when it is put in. */
async function figureOf(page) {
  const figure = document.createElement("figure");
  const picture = new Image();
  picture.className = "paper";
  picture.alt = page.alt;
  picture.src = URL.createObjectURL(new Blob([page.svg], { type: "image/svg+xml" }));
  try { await picture.decode(); } catch { /* it is shown as soon as it can be */ }
  figure.append(picture);
  if (page.part) figure.append(element("figcaption", "", page.part));
  return figure;
}

function beginWays() {
  const choice = byId("way-for");
  choice?.addEventListener("change", () => {
    byId("way-room").hidden = choice.value !== "room";
    byId("way-rooms").required = choice.value === "room";
  });
}

function begin() {
  document.querySelectorAll("[data-sheets]").forEach((one) => seen.observe(one));
  beginList();
  beginWays();
  const home = byId("bench");
  if (home) new Bench(home);
}

document.addEventListener("page:shown", begin);
begin();
