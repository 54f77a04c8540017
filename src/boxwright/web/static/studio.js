// What every page does alike: forms become named commands, pages change in place, errors stay
// beside what was typed, and two windows never overwrite each other silently.
//
// A form with `data-do="box.add"` is sent as the JSON of its fields to that command of the game;
// a button with `data-do` and `data-args` likewise. `data-post` names any other address. After it
// the page is fetched anew and put in place of the old one, unless `data-next` names another.
// The event `page:shown` on `document` tells a page's own script that new content stands there.

const body = document.body;
const phrases = JSON.parse(document.getElementById("phrases").textContent);

export const phrase = (name) => phrases[name];

/** Say something to everyone, screen readers included. */
export function tell(text) {
  document.getElementById("said").textContent = text;
  clearTimeout(tell.later);
  tell.later = setTimeout(() => { document.getElementById("said").textContent = ""; }, 6000);
}

/** Return the values of a form's fields as an object: dots in names nest, [] makes a list. */
export function valuesOf(form) {
  const values = {};
  for (const control of form.elements) {
    if (!control.name || control.disabled || control.type === "submit" || control.type === "button") continue;
    if (control.type === "radio" && !control.checked) continue;
    const value = valueOf(control);
    if (value !== undefined) put(values, control.name, value);
  }
  return values;
}

function valueOf(control) {
  if (control.type === "checkbox") {
    if (control.name.endsWith("[]")) return control.checked ? control.value : undefined;
    return control.checked;
  }
  if (control.multiple && control.options) return [...control.selectedOptions].map((one) => one.value);
  const text = control.value;
  if (text.trim() === "" && control.dataset.empty === "omit") return undefined;
  if (text.trim() === "" && control.dataset.empty === "none") return null;
  if (control.type === "number" || control.dataset.type === "number") return text.trim() === "" ? null : Number(text);
  if (control.dataset.type === "lines") return text.split("\n").map((line) => line.trim()).filter(Boolean);
  if (control.dataset.type === "json") return JSON.parse(text);
  return text;
}

function put(values, name, value) {
  const list = name.endsWith("[]");
  const steps = (list ? name.slice(0, -2) : name).split(".");
  const last = steps.pop();
  let at = values;
  for (const step of steps) at = at[step] ??= {};
  if (list) (at[last] ??= []).push(value);
  else at[last] = value;
}

/** Return where a command, or `undo`, is sent. */
export function addressOf(name) {
  const game = body.dataset.game;
  return name === "undo" || name === "redo" ? `${game}/${name}` : `${game}/do/${name}`;
}

/** POST JSON (or a FormData) and return { ok, status, data }; a dead server gives status 0. */
export async function post(address, data, tag = body.dataset.tag) {
  const upload = data instanceof FormData;
  const headers = { Accept: "application/json" };
  if (!upload) headers["Content-Type"] = "application/json";
  if (tag) headers["If-Match"] = `"${tag}"`;
  try {
    const answer = await fetch(address, { method: "POST", headers, body: upload ? data : JSON.stringify(data ?? {}) });
    const odd = answer.status === 413 ? "too-large" : "odd-answer";
    return { ok: answer.ok, status: answer.status, data: await answer.json().catch(() => said(odd)) };
  } catch {
    return { ok: false, status: 0, data: said("unreachable") };
  }
}

const said = (name) => ({ problems: [{ what: phrase(name), remedy: phrase(`${name}-remedy`) }] });

/** Fetch a page and put it in place of the one that is shown; focus stays where it was. */
export async function show(address = location.href, { push = false, focus = null, done = document.getElementById("page") } = {}) {
  const answer = await fetch(address, { headers: { Accept: "text/html" } }).catch(() => null);
  if (!answer) { tell(phrase("unreachable")); return; }
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (fresh.body.dataset.page !== body.dataset.page) { location.href = answer.url; return; }
  const held = focus ?? document.activeElement?.id;
  const typed = unsent(done);
  for (const id of ["page", "history", "game-title", "game-pages"]) {
    const [old, next] = [document.getElementById(id), fresh.getElementById(id)];
    if (old && next) old.replaceWith(document.adoptNode(next));
  }
  document.title = fresh.title;
  if (fresh.body.dataset.tag) body.dataset.tag = fresh.body.dataset.tag;
  document.getElementById("stale").hidden = true;
  if (push) history.pushState(null, "", answer.url);
  typeAgain(typed);
  const target = held ? document.getElementById(held) : null;
  unfold(target);
  (target ?? document.getElementById("page")).focus({ preventScroll: Boolean(target) || !push });
  document.dispatchEvent(new CustomEvent("page:shown"));
}

/** Return what was typed into forms outside of `done` and sent nowhere yet. */
function unsent(done) {
  const forms = [...document.querySelectorAll("#page form")].filter((form) => !done?.contains(form));
  return forms.flatMap((form) => [...form.elements]).filter(isTyped).map(({ id, defaultValue, value }) => ({ id, defaultValue, value }));
}

const isTyped = (one) => one.id && one.matches("textarea, input:not([type=hidden], [type=checkbox], [type=radio], [type=file], [type=range])") && one.value !== one.defaultValue;

/** Type it again where the same fields still stand over the same values. */
function typeAgain(kept) {
  for (const one of kept) {
    const field = document.getElementById(one.id);
    if (field?.defaultValue !== one.defaultValue) continue;
    field.value = one.value;
    unfold(field);
  }
}

/** Open what hides an element; a summary stands there in any case. */
function unfold(element) {
  const inside = element?.tagName === "SUMMARY" ? element.parentElement : element;
  for (let at = inside?.parentElement.closest("details"); at; at = at.parentElement.closest("details")) at.open = true;
}

/** Fetch a piece of a page, made by a template of ours that escapes; null where none comes. */
export async function piece(address) {
  try {
    const answer = await fetch(address);
    return answer.ok ? await answer.text() : null;
  } catch { return null; }
}

/**
 * Show problems in `home`, just before the first wrong field, which gets the focus unless the
 * hand is elsewhere already. A problem names its field by its path, or has it as `field`.
 */
export function complain(home, problems, { focus = true } = {}) {
  clearComplaints(home);
  const list = document.createElement("div");
  list.className = "problems";
  list.setAttribute("role", "alert");
  for (const one of problems) list.append(complaint(one));
  const wrong = problems.map((one) => one.field ?? fieldOf(home, one.path)).find(Boolean);
  home.insertBefore(list, rowOf(home, wrong) ?? home.firstChild);
  wrong?.setAttribute("aria-invalid", "true");
  if (!wrong) list.tabIndex = -1;
  if (focus) (wrong ?? list).focus();
  list.scrollIntoView({ block: "nearest" });
}

/** Return what of `home` holds a field, and open what hides it there; none in the page at large. */
function rowOf(home, field) {
  if (!field || home.id === "page") return null;
  let row = field;
  for (; row.parentElement !== home; row = row.parentElement) if (row.tagName === "DETAILS") row.open = true;
  return row;
}

function complaint(one) {
  const box = document.createElement("div");
  box.className = "problem";
  for (const part of ["what", "remedy"]) {
    const line = document.createElement("p");
    line.className = part;
    line.textContent = one[part];
    box.append(line);
  }
  return box;
}

/** Return the field that a path leads to, or the nearest that holds it; null where there is none. */
function fieldOf(home, path = []) {
  for (let steps = path.length; steps > 0; steps -= 1) {
    const name = CSS.escape(path.slice(0, steps).join("."));
    const field = home.querySelector(`[name="${name}"], [name="${name}[]"]`);
    if (field) return field;
  }
  return null;
}

export function clearComplaints(home) {
  home.querySelectorAll(":scope > .problems").forEach((one) => one.remove());
  home.querySelectorAll("[aria-invalid]").forEach((one) => one.removeAttribute("aria-invalid"));
}

/** Send a command of the game; on success show the page anew. Returns the answer. */
export async function perform(name, args, { home = document.getElementById("page"), next = null, focus = null } = {}) {
  return send(addressOf(name), args, { home, next, focus });
}

// One after the other, each for the state that the last one left; what is on its way already (a
// double click, Enter in a field that is also sent when it is left) is not sent again. Undo is:
// who presses it twice means two changes.
const onTheWay = new Map();
let last = Promise.resolve();

async function send(address, args, how) {
  const key = /\/(undo|redo)$/.test(address) ? Symbol(address) : args instanceof FormData ? address : address + JSON.stringify(args);
  if (!onTheWay.has(key)) {
    last = last.catch(() => {}).then(() => sendNow(address, args, how)).finally(() => onTheWay.delete(key));
    onTheWay.set(key, last);
  }
  return onTheWay.get(key);
}

async function sendNow(address, args, { home, next, focus }) {
  body.classList.add("busy");
  const answer = await post(address, args);
  body.classList.remove("busy");
  if (answer.ok) {
    clearComplaints(home);
    if (answer.data.tag) body.dataset.tag = answer.data.tag;
    if (next || answer.data.next) { await go(answer.data.next ?? next); return answer; }
    await show(location.href, { focus, done: home });
    tell(answer.data.said ?? doneWith(address, answer.data));
  } else if (answer.status === 412) {
    await clash(address, args, { home, next, focus });
  } else {
    complain(home.isConnected ? home : document.getElementById("page"), answer.data.problems ?? []);
  }
  return answer;
}

/** Say what was done: after a change it is what can be undone now, after an undo what can be redone. */
function doneWith(address, { undo, redo }) {
  const way = /\/(undo|redo)$/.exec(address)?.[1] ?? "do";
  const what = way === "undo" ? redo : undo;
  return what ? phrase(`done-${way}`).replace("{what}", () => what) : phrase("done");
}

async function go(address) { location.href = address; }

/** The game has changed since this page was shown: let its user see both, and choose. */
async function clash(address, args, how) {
  const dialog = document.getElementById("clash");
  const since = await fetch(`${body.dataset.game}/since/${encodeURIComponent(body.dataset.tag)}`);
  document.getElementById("clash-theirs").innerHTML = await since.text();
  const mine = document.createElement("pre");
  const entries = args instanceof FormData ? [...args] : Object.entries(args ?? {});
  mine.textContent = entries.map(([key, value]) => `${key}: ${asText(value)}`).join("\n");
  document.getElementById("clash-mine").replaceChildren(mine);
  dialog.returnValue = "theirs";
  dialog.showModal();
  await new Promise((closed) => dialog.addEventListener("close", closed, { once: true }));
  const now = await (await fetch(`${body.dataset.game}/now`)).json();
  body.dataset.tag = now.tag;
  if (dialog.returnValue === "mine") await sendNow(address, args, how);
  else await show();
}

function asText(value) {
  if (value instanceof File) return value.name;
  return typeof value === "string" ? value : JSON.stringify(value);
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  const address = form.dataset.do ? addressOf(form.dataset.do) : form.dataset.post;
  if (!address) return;
  event.preventDefault();
  const upload = form.enctype === "multipart/form-data";
  send(address, upload ? new FormData(form) : valuesOf(form), { home: form, next: form.dataset.next, focus: form.dataset.focus });
});

document.addEventListener("click", (event) => {
  const button = event.target.closest("button[data-do], button[data-post]");
  if (!button || button.disabled) return;
  const address = button.dataset.do ? addressOf(button.dataset.do) : button.dataset.post;
  const home = button.closest("[data-home]") ?? document.getElementById("page");
  send(address, JSON.parse(button.dataset.args ?? "{}"), { home, next: button.dataset.next, focus: button.dataset.focus });
});

// A form with `data-auto` is sent as soon as a field is left changed.
document.addEventListener("change", (event) => {
  const form = event.target.form;
  if (form?.dataset.auto !== undefined) form.requestSubmit();
});

// Ctrl+Z and Ctrl+Shift+Z act on the game where no text is being written.
document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z" || !body.dataset.game) return;
  if (event.target.closest("input, textarea, select, [contenteditable]")) return;
  event.preventDefault();
  const button = document.getElementById(event.shiftKey ? "redo" : "undo");
  if (button?.checkVisibility()) button.click();
});

// An edit from outside, or from another window: asked for every two seconds, and on coming back.
async function look() {
  if (!body.dataset.game || document.hidden) return;
  try {
    const now = await (await fetch(`${body.dataset.game}/now`)).json();
    document.getElementById("stale").hidden = now.tag === body.dataset.tag || body.classList.contains("busy");
  } catch { /* the next look will tell */ }
}
if (body.dataset.game) {
  setInterval(look, 2000);
  addEventListener("focus", look);
  document.getElementById("show-new").addEventListener("click", () => show(location.href, { done: null }));
}
addEventListener("popstate", () => show());
