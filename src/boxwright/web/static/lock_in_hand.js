// The lock in somebody's hand: every change goes into the address at once, and what follows from
// it is fetched piece by piece: the verdict while one types, then the sheets. Rows of a lesson
// stand behind the address's #, so that a bookmark keeps them and no request line grows long.
import { show, valuesOf } from "./studio.js";

const TYPING = 60; // milliseconds without a key before the verdict is asked for
const MAKING = 300; // and before sheets are made
const MOST_ROWS = 200000;
const USUAL = { youngest: "9", oldest: "11", lesson: "none", draw: "0", three: "0", ways: "4" };

const el = (id) => document.getElementById(id);
const form = () => el("hand");
let turns = new Map();
let large = "";

/** Return what is said of the lock and the lesson, as the studio's addresses are asked. */
function said() {
  const values = valuesOf(form());
  for (const one of form().querySelectorAll("input[type=number], [data-usual]")) {
    if (!one.checkValidity() || one.value === one.dataset.usual) delete values[one.name];
  }
  if (values.code !== undefined && !el("draw").dataset.typed) delete values.code;
  const kept = Object.entries(values).filter(([, value]) => value !== "" && value !== null && value !== false);
  return Object.fromEntries(kept.map(([name, value]) => [name, typeof value === "number" ? value : String(value)]));
}

function asked(more = {}) {
  const values = said();
  const code = el("code")?.value;
  if (code) values.code = code;
  return { ...values, any_order: values.any_order === "true", turn: [...turns.values()], rows: rows(), ...more };
}

const rows = () => (el("rows")?.value ?? "").slice(0, MOST_ROWS);

/** Return the address that says all this; what is usual is left out. */
function address() {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(said())) if (String(value) !== USUAL[name]) query.append(name, value);
  for (const turn of turns.values()) query.append("turn", turn);
  if (large) query.append("sheet", large);
  const text = rows();
  return `/?${query}${text ? `#rows=${encodeURIComponent(text)}` : ""}`;
}

function keep({ push = false } = {}) {
  history[push ? "pushState" : "replaceState"](null, "", address());
}

/** Fetch one piece of the page; the last one asked for wins, others are given up. */
const waiting = new Map();
async function piece(name, home, more) {
  waiting.get(name)?.abort();
  const stop = new AbortController();
  waiting.set(name, stop);
  try {
    const answer = await fetch(`/hand/${name}`, {
      method: "POST",
      headers: { "Content-Type": "application/json", Accept: "text/html" },
      body: JSON.stringify(asked(more)),
      signal: stop.signal,
    });
    const html = await answer.text();
    if (stop.signal.aborted) return false;
    if (!answer.ok) { fail(home, html); return false; }
    // Our own templates, in which every text of the user's is escaped.
    home.innerHTML = html;
    return true;
  } catch {
    if (!stop.signal.aborted) home.replaceChildren(el("failed").content.cloneNode(true));
    return false;
  }
}

/** Show what the studio says of a request that it does not take, in place of what was there. */
function fail(home, html) {
  const box = el("failed").content.cloneNode(true);
  const title = new DOMParser().parseFromString(html, "text/html").querySelector("h1");
  if (title) box.querySelector(".what").textContent = title.textContent;
  home.replaceChildren(box);
}

async function makeSheets() {
  const home = el("sheets");
  if (!home) return;
  const focus = document.activeElement?.id;
  const height = home.offsetHeight;
  home.setAttribute("aria-busy", "true");
  home.style.setProperty("min-height", `${height}px`);
  const done = await piece("sheets", home, {});
  if (home.isConnected) {
    home.setAttribute("aria-busy", "false");
    home.style.removeProperty("min-height");
  }
  if (done && focus && home.contains(el(focus))) el(focus).focus({ preventScroll: true });
  if (done) document.dispatchEvent(new CustomEvent("sheets:shown"));
}

let later;
function soon(wait) {
  clearTimeout(later);
  later = setTimeout(() => { keep(); makeSheets(); }, wait);
}

let judging;
function judgeSoon() {
  clearTimeout(judging);
  judging = setTimeout(() => piece("verdict", el("verdict"), {}), TYPING);
  soon(MAKING);
}

function readLesson() {
  el("own-rows").hidden = form().elements.lesson.value !== "own";
  return piece("lesson", el("lesson"), {});
}

// The large view.

async function openLarge(kind, { push = true } = {}) {
  if (push) keep(); // what was typed last may not stand in the address yet
  large = kind;
  if (push) keep({ push: true });
  const dialog = el("large");
  if (!dialog.open) dialog.showModal();
  const focus = document.activeElement?.id;
  const done = await piece("sheet", el("large-sheet"), { sheet: kind });
  if (!done && !push) { closeLarge(); return; } // an address of yesterday's, with another three now
  const back = focus && focus !== "large" ? el(focus) : null;
  if (done) (back && !back.disabled && dialog.contains(back) ? back : el("close-large"))?.focus();
}

/** Close the large view by going back to where it was opened, or where there is no such place. */
function closeLarge() {
  if (!large) return;
  const kind = large;
  large = "";
  if (el("large").open) el("large").close();
  keep();
  el(`open-${kind}`)?.focus();
}

// What people do.

document.addEventListener("change", async (event) => {
  const target = event.target;
  if (target.form !== form() && target.id !== "rows") return;
  if (target.name === "lock") {
    const first = !form().dataset.chosen;
    turns = new Map();
    const query = new URLSearchParams({ lock: target.value });
    for (const name of ["youngest", "oldest", "lesson"]) {
      const value = said()[name];
      if (value && String(value) !== USUAL[name]) query.append(name, value);
    }
    const text = rows();
    history[first ? "pushState" : "replaceState"](null, "", `/?${query}${text ? `#rows=${encodeURIComponent(text)}` : ""}`);
    await show(location.href, { focus: target.id });
  } else if (target.type === "number" && !target.reportValidity()) {
    target.setAttribute("aria-invalid", "true");
  } else if (target.type === "number") {
    target.removeAttribute("aria-invalid");
  } else if (target.name === "lesson") {
    readLesson();
    soon(0);
  }
});

document.addEventListener("input", (event) => {
  const target = event.target;
  if (target.id === "rows") {
    clearTimeout(judging);
    judging = setTimeout(readLesson, TYPING);
    soon(MAKING);
  } else if (target.form === form() && target.name !== "lock" && target.name !== "lesson") {
    if (target.name === "code") el("draw").dataset.typed = "yes";
    if (target.name === "youngest" || target.name === "oldest") readLesson();
    judgeSoon();
  }
});

document.addEventListener("submit", (event) => {
  if (event.target === form()) { event.preventDefault(); soon(0); }
  if (event.target.classList.contains("print-form")) {
    const paper = event.submitter?.dataset.paper ?? "a4";
    event.target.elements.asked.value = JSON.stringify(asked({ sheet: large, paper }));
  }
});

document.addEventListener("click", async (event) => {
  const button = event.target.closest("button");
  if (!button) { if (event.target === el("large")) closeLarge(); return; }
  if (button.id === "other-code") await otherCode();
  else if (button.id === "other-three") { step("three"); turns = new Map(); soon(0); }
  else if (button.id === "close-large") closeLarge();
  else if (button.dataset.open) openLarge(button.dataset.open);
  else if (button.dataset.code) take(button.dataset.code);
  else if (button.dataset.turn) turn(button);
});

function step(name) { el(name).value = String((Number(el(name).value) + 1) % 10000); }

async function otherCode() {
  step("draw");
  el("draw").dataset.typed = "";
  turns = new Map();
  keep();
  await show(location.href, { focus: "other-code" });
}

function take(code) {
  el("code").value = code;
  el("draw").dataset.typed = "yes";
  judgeSoon();
  el("code").focus();
}

function turn(button) {
  turns.set(button.dataset.turn.split(":")[0], button.dataset.turn);
  keep();
  if (el("large").open) openLarge(large, { push: false });
  makeSheets();
}

// What stands in the address, when the page is shown.

function restore() {
  if (!form()) return;
  const query = new URLSearchParams(location.search);
  turns = new Map(query.getAll("turn").map((one) => [one.split(":")[0], one]));
  large = query.get("sheet") ?? "";
  const text = location.hash.startsWith("#rows=") ? decode(location.hash.slice(6)) : "";
  if (el("rows") && text) { el("rows").value = text; readLesson(); }
  if (!el("sheets")) { warm(); return; }
  makeSheets();
  if (large) openLarge(large, { push: false });
}

/** Let the studio load what it needs for sheets and words while somebody looks at the locks. */
function warm() {
  const ask = (name, lock) => fetch(`/hand/${name}`, {
    method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ lock }),
  }).then((answer) => answer.text()); // else the line to the studio stays taken
  setTimeout(async () => {
    try { await ask("sheets", "number-wheels"); await ask("verdict", "letter-wheels"); } catch { /* it will do without */ }
  }, 200);
}

function decode(text) {
  try { return decodeURIComponent(text); } catch { return ""; }
}

// What was still to be made of the page before must not write itself into the address gone back to.
addEventListener("popstate", () => {
  clearTimeout(later);
  large = new URLSearchParams(location.search).get("sheet") ?? "";
});

el("large")?.addEventListener("cancel", (event) => { event.preventDefault(); closeLarge(); });
document.addEventListener("page:shown", () => {
  el("large")?.addEventListener("cancel", (event) => { event.preventDefault(); closeLarge(); });
  restore();
});
restore();
