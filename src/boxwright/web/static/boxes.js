// The shelf: chosen by mouse, touch or keys; things are dragged, or moved from a list.
//
// Each thing is a treeitem with `data-id`; `data-moves` says which command moves it and which
// argument takes the new place, `data-size` what a place must hold for it (`data-holds`).

import { clearComplaints, perform, show, tell, valuesOf } from "./studio.js";
import { dragging } from "./boxes-drag.js";

const $ = (id) => document.getElementById(id);
const shelf = () => $("shelf");
const items = () => [...shelf().querySelectorAll('[role="treeitem"]')];
const itemOf = (id) => items().find((one) => one.dataset.id === id);
const picked = () => shelf()?.querySelector('[aria-selected="true"]');
const said = (name) => document.querySelector(`#ties [data-said="${name}"]`).textContent;

// Choosing.

/** Return the page's address with one thing chosen, or none. */
function addressWith(id, from = location.href) {
  const url = new URL(from, location.href);
  if (id) url.searchParams.set("thing", id);
  else url.searchParams.delete("thing");
  return url;
}

/** Choose a thing: show what is known of it, and what hangs together with it. */
async function pick(item, { focus = true } = {}) {
  for (const one of items()) {
    one.tabIndex = one === item ? 0 : -1;
    one.setAttribute("aria-selected", String(one === item));
  }
  if (focus) item.focus({ preventScroll: true });
  history.replaceState(null, "", addressWith(item.dataset.id));
  await showPanel(item.dataset.id);
  item.scrollIntoView({ block: "nearest" });
}

async function showPanel(id) {
  const panel = $("panel");
  const asked = (showPanel.asked = (showPanel.asked ?? 0) + 1);
  const answer = await fetch(addressWith(id, panel.dataset.from));
  if (!answer.ok || asked !== showPanel.asked) return;
  panel.innerHTML = await answer.text();
  panelShown();
}

function panelShown() {
  $("panel").classList.toggle("full", Boolean($("panel").querySelector(".thing")));
  showTies();
  showFaces();
  showFound();
}

function unpick() {
  history.replaceState(null, "", addressWith(null));
  const item = picked();
  item?.setAttribute("aria-selected", "false");
  showPanel("");
  item?.focus();
}

/** Say at each thing that hangs together with the chosen one what it is to it. */
function showTies() {
  for (const one of shelf().querySelectorAll(".tie")) one.textContent = "";
  for (const one of shelf().querySelectorAll(".tied-now")) one.classList.remove("tied-now");
  const tied = JSON.parse($("panel").querySelector("[data-tied]")?.dataset.tied ?? "[]");
  for (const { id, how } of tied) {
    for (const item of items().filter((one) => one.dataset.id === id)) {
      item.classList.add("tied-now");
      item.querySelector(`:scope > .notes > .tie, :scope > .front .tie, :scope > .board .tie`).textContent =
        document.querySelector(`#ties [data-how="${how}"]`).textContent;
    }
  }
}

// What the checks find: fetched once the shelf stands there.

async function findings() {
  const strip = $("strip");
  const asked = (findings.asked = (findings.asked ?? 0) + 1);
  const answer = await fetch(strip.dataset.from);
  if (asked !== findings.asked || !strip.isConnected) return;
  if (answer.ok) strip.innerHTML = await answer.text();
  strip.removeAttribute("aria-busy");
  showFaces();
  showMarks();
  showFound();
}

function marks() {
  return JSON.parse($("strip")?.querySelector("[data-marks]")?.dataset.marks ?? "{}");
}

function showMarks() {
  const found = marks();
  for (const item of items()) {
    const mark = item.querySelector(":scope > .notes > .mark, :scope > .front .mark, :scope > .board .mark");
    const one = found[item.dataset.id];
    if (!mark) continue;
    mark.hidden = !one;
    mark.className = `mark ${one?.severity ?? ""}`;
    mark.textContent = one ? one.says.map((each) => each.text).join(" ") : "";
    mark.title = mark.textContent;
  }
}

function showFound() {
  const home = $("panel")?.querySelector("[data-found]");
  if (!home) return;
  const one = marks()[home.dataset.found];
  home.replaceChildren();
  for (const { text, severity, finding } of one?.says ?? []) {
    const line = document.createElement("p");
    line.className = `problem ${severity}`;
    const link = document.createElement("a");
    link.href = `${$("strip").querySelector(".count a").href}#finding-${finding}`;
    link.textContent = text;
    line.append(link);
    home.append(line);
  }
}

/** Draw each lock with the code that it has, once that is known. */
function showFaces() {
  for (const face of document.querySelectorAll("#strip template[data-face]")) {
    for (const lock of document.querySelectorAll(`[data-lock="${face.dataset.face}"]`)) {
      lock.replaceChildren(face.content.cloneNode(true));
    }
    const line = document.querySelector(`[data-code="${face.dataset.face}"]`);
    if (line) line.textContent = face.dataset.said;
  }
}

// Commands.

const homeOf = () => $("panel").querySelector(".thing") ?? $("page");

/** Move a thing to `target`, as its `data-moves` says. */
function move(element, target, home = homeOf()) {
  const { do: command, args, at } = JSON.parse(element.dataset.moves);
  const asked = structuredClone(args);
  let table = asked;
  for (const step of at.slice(0, -1)) table = table[step] ??= {};
  table[at.at(-1)] = target;
  return perform(command, asked, { home, focus: picked()?.id });
}

function valueOf(form) {
  const fields = [...form.elements].filter((one) => one.name === "value");
  const as = form.dataset.as;
  if (as === "tick") return fields[0].checked ? (fields[0].value === "true" ? true : fields[0].value) : null;
  if (as === "numbers") {
    const numbers = fields.map((one) => one.value.trim());
    return numbers.every((one) => one === "") ? null : numbers.map(Number);
  }
  const text = fields[0].value.trim();
  if (text === "") return null;
  return as === "number" ? Number(text) : text;
}

/** Several numbers are one value: it is sent when all or none of them are there. */
function isHalf(form) {
  const numbers = [...form.elements].filter((one) => one.name === "value").map((one) => one.value.trim());
  return form.dataset.as === "numbers" && numbers.some((one) => one === "") && numbers.some((one) => one !== "");
}

async function setField(form) {
  if (isHalf(form)) return;
  const id = $("panel").querySelector(".thing").dataset.thing;
  await perform("thing.set", { id, field: form.dataset.set, value: valueOf(form) }, { home: form, focus: document.activeElement?.id });
}

async function rename(form) {
  const { id, new: name } = valuesOf(form);
  if (name === id) return;
  const wish = addressWith(name);
  const before = location.href;
  history.replaceState(null, "", wish);
  const answer = await perform("thing.rename", { id, new: name }, { home: form, focus: "set-name" });
  if (!answer.ok) history.replaceState(null, "", before);
}

async function openAdding(sort, at, gives) {
  const dialog = $("adding");
  const url = new URL($("panel").dataset.adding, location.href);
  url.searchParams.set("sort", sort);
  if (at) url.searchParams.set("at", at);
  if (gives) url.searchParams.set("gives", gives);
  const answer = await fetch(url);
  if (!answer.ok) return;
  dialog.innerHTML = await answer.text();
  dialog.dataset.at = at ?? "";
  fitFields(dialog);
  if (!dialog.open) dialog.showModal();
  dialog.querySelector("[autofocus], select, input, button")?.focus();
}

/** Ask of a lock only what its sort has. */
function fitFields(dialog) {
  const sort = dialog.querySelector('[name="mechanism"]:checked')?.value;
  for (const part of dialog.querySelectorAll("[data-for]")) {
    part.hidden = !part.dataset.for.split(" ").includes(sort);
    for (const control of part.querySelectorAll("input, select")) control.disabled = part.hidden;
  }
}

async function addThing(form) {
  const asked = Object.fromEntries(Object.entries(valuesOf(form)).filter(([, value]) => value !== false));
  if (typeof asked.faces === "string") asked.faces = asked.faces.split(/[\s,;]+/).filter(Boolean);
  if (asked.length) asked.length = [asked.length, asked.length];
  const before = new Set(items().map((one) => one.dataset.id));
  const answer = await perform(form.dataset.add, asked, { home: form });
  if (!answer.ok) return;
  const fresh = items().find((one) => !before.has(one.dataset.id));
  if (fresh) pick(fresh);
}

async function remove(form) {
  const above = picked()?.parentElement.closest('[role="treeitem"]');
  const asked = { id: form.dataset.remove };
  if ("withClue" in form.dataset) asked.with_clue = true;
  const before = location.href;
  history.replaceState(null, "", addressWith(above?.dataset.id ?? null));
  const answer = await perform("thing.remove", asked, { home: form, focus: above?.id });
  if (!answer.ok) history.replaceState(null, "", before);
}

// Wishes: they stand in the address; what the place has stands in its file.

async function wish(form) {
  const url = new URL(location.href);
  const values = valuesOf(form);
  const [name, value] = values.ways.split("=");
  for (const one of ["level", "arrangement", "groups"]) url.searchParams.delete(one);
  if (value) url.searchParams.set(name, value);
  if (values.groups) url.searchParams.set("groups", values.groups);
  await show(url.href, { push: true, focus: document.activeElement?.id });
}

async function furnish(form) {
  const facilities = [...form.querySelectorAll('[name="facilities"]:checked')].map((one) => one.value);
  const asked = { facilities, setting: form.elements.setting.value };
  await perform("room.describe", asked, { home: form, focus: document.activeElement?.id });
}

// What happens.

const dialogOf = (element) => element.closest("dialog");

document.addEventListener("click", (event) => {
  const target = event.target;
  const link = target.closest("a[data-pick]");
  if (link && !(event.ctrlKey || event.metaKey || event.shiftKey) && shelf()) {
    const item = itemOf(link.dataset.pick);
    if (item) {
      event.preventDefault();
      pick(item);
    }
    return;
  }
  const adds = target.closest("[data-adds]");
  if (adds) { begin(adds.dataset.adds, dialogOf(adds)); return; }
  if (target.closest("[data-shut]")) { dialogOf(target).close(); return; }
  if (target.closest("[data-close]")) { unpick(); return; }
  if (target.closest("[data-removes]")) { ask(); return; }
  if (target.closest("[data-keep]")) { dialogOf(target).close(); return; }
  const item = target.closest('#shelf [role="treeitem"]');
  if (item && item.id !== "at-out") pick(item);
});

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (form.dataset.moves !== undefined) {
    event.preventDefault();
    const to = form.elements.to.value;
    if (to) move(form, to, form);
  } else if (form.dataset.add) {
    event.preventDefault();
    addThing(form);
  } else if (form.dataset.remove) {
    event.preventDefault();
    remove(form);
  } else if (form.dataset.set) {
    event.preventDefault();
    setField(form);
  } else if (form.dataset.renames !== undefined) {
    event.preventDefault();
    rename(form);
  } else if (form.dataset.wishes !== undefined || form.dataset.place !== undefined) {
    event.preventDefault();
  }
});

document.addEventListener("change", (event) => {
  const form = event.target.form;
  if (!form) return;
  if (form.dataset.wishes !== undefined) wish(form);
  else if (form.dataset.place !== undefined) furnish(form);
  else if (form.dataset.set) setField(form);
  else if (form.dataset.renames !== undefined) rename(form);
  else if (event.target.name === "mechanism") fitFields(dialogOf(form));
  else if (event.target.name === "gives" && form.dataset.add) openAdding("clue", dialogOf(form).dataset.at, event.target.value);
});

/** Ask for a new thing: a clue to the chosen lock lies beside its box, not in it. */
function begin(sort, dialog) {
  const item = picked();
  const size = item?.dataset.size;
  if (sort === "clue" && size === "lock") openAdding(sort, spotOf(parentOf(parentOf(item))), item.dataset.id);
  else openAdding(sort, dialog?.dataset.at || spotOf(item), size === "small" ? item.dataset.id : null);
}

/** Return the box or spot at which something new is put: the one chosen, or that it lies in. */
function spotOf(item) {
  return item?.closest("[data-drop]")?.dataset.drop ?? "";
}

function ask() {
  const dialog = $("panel").querySelector("dialog.question");
  clearComplaints(dialog.querySelector("form"));
  dialog.showModal();
  dialog.querySelector("[data-keep]").focus();
}

// Keys on the shelf.

const parentOf = (item) => item.parentElement.closest('[role="treeitem"]');

function step(item, key) {
  const all = items();
  const at = all.indexOf(item);
  if (key === "ArrowDown") return all[at + 1];
  if (key === "ArrowUp") return all[at - 1];
  if (key === "Home") return all[0];
  if (key === "End") return all.at(-1);
  if (key === "ArrowLeft") return parentOf(item);
  return item.querySelector('[role="treeitem"]');
}

async function pickAnd(item, then) {
  if (item.getAttribute("aria-selected") !== "true") await pick(item);
  then();
}

document.addEventListener("keydown", (event) => {
  const item = event.target.closest?.('#shelf [role="treeitem"]');
  if (!item || event.target !== item || event.ctrlKey || event.metaKey || event.altKey) return;
  const keys = ["ArrowDown", "ArrowUp", "ArrowLeft", "ArrowRight", "Home", "End"];
  const real = item.id !== "at-out";
  if (keys.includes(event.key)) {
    const next = step(item, event.key);
    if (next) { for (const one of items()) one.tabIndex = one === next ? 0 : -1; next.focus(); }
  } else if (event.key === " " && real) pick(item);
  else if (event.key === "Enter" && real) pickAnd(item, () => { const name = $("set-name"); name?.focus(); name?.select(); });
  else if (event.key === "Delete" && real) pickAnd(item, () => { if ($("remove")) ask(); });
  else if (event.key.toLowerCase() === "m" && real) pickAnd(item, () => $("panel").querySelector("form.move select")?.focus());
  else if (event.key.toLowerCase() === "a") openAdding("any", spotOf(item) || "table");
  else return;
  event.preventDefault();
});

document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape" || document.querySelector("dialog[open]")) return;
  if (event.target.closest?.("#panel")) picked()?.focus();
});

// The shelf anew: after the page was loaded, and after each change.

function shown() {
  if (!shelf()) return;
  const all = items();
  const chosen = picked();
  if (!all.some((one) => one.tabIndex === 0) && all.length) all[0].tabIndex = 0;
  panelShown();
  findings();
  if (!chosen && new URL(location.href).searchParams.has("thing")) history.replaceState(null, "", addressWith(null));
}

dragging({
  itemOf: (element) => element.closest?.("#shelf [data-moves]"),
  targetOf: (element) => element?.closest?.("#shelf [data-drop]"),
  pick: (item) => pick(item),
  refuse: (why) => tell(said(why)),
  drop: async (item, target) => {
    await pick(item, { focus: false });
    move(item, target.dataset.drop);
  },
});

document.addEventListener("page:shown", shown);
shown();
const first = picked();
if (first) first.scrollIntoView({ block: "nearest" });
