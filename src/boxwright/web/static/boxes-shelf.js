// What is chosen on the shelf, and what is shown of it: beside it, on it, and in the strip above.
//
// Each thing is a treeitem with `data-id`; the chosen one stands in the address too.

import { phrase, piece } from "./studio.js";

export const $ = (id) => document.getElementById(id);
export const shelf = () => $("shelf");
export const items = () => [...shelf().querySelectorAll('[role="treeitem"]')];
export const itemOf = (id) => items().find((one) => one.dataset.id === id);
export const picked = () => shelf()?.querySelector('[aria-selected="true"]');
export const said = (name) => document.querySelector(`#ties [data-said="${name}"]`).textContent;

// Choosing.

/** Return the page's address with one thing chosen, or none. */
export function addressWith(id, from = location.href) {
  const url = new URL(from, location.href);
  if (id) url.searchParams.set("thing", id);
  else url.searchParams.delete("thing");
  return url;
}

/** Choose a thing: show what is known of it, and what hangs together with it. */
export async function pick(item, { focus = true } = {}) {
  for (const one of items()) {
    one.tabIndex = one === item ? 0 : -1;
    one.setAttribute("aria-selected", String(one === item));
  }
  if (focus) item.focus({ preventScroll: true });
  history.replaceState(null, "", addressWith(item.dataset.id));
  pick.shown = showPanel(item.dataset.id);
  await pick.shown;
  item.scrollIntoView({ block: "nearest" });
}

async function showPanel(id) {
  const panel = $("panel");
  const asked = (showPanel.asked = (showPanel.asked ?? 0) + 1);
  const html = await piece(addressWith(id, panel.dataset.from));
  if (asked !== showPanel.asked || !panel.isConnected) return;
  if (html === null) panel.textContent = phrase("unreachable");
  else panel.innerHTML = html;
  panelShown();
}

export function panelShown() {
  $("panel").classList.toggle("full", Boolean($("panel").querySelector(".thing")));
  showTies();
  showFaces();
  showFound();
}

export function unpick() {
  history.replaceState(null, "", addressWith(null));
  const item = picked();
  item?.setAttribute("aria-selected", "false");
  showPanel("");
  item?.focus();
}

/** Return a thing's own place for a note: what it is to the chosen one, or what was found. */
const noteOf = (item, which) => $(`${item.id}-notes`)?.querySelector(`.${which}`);

/** Say at each thing that hangs together with the chosen one what it is to it. */
function showTies() {
  for (const one of shelf().querySelectorAll(".tie")) one.textContent = "";
  for (const one of shelf().querySelectorAll(".tied-now")) one.classList.remove("tied-now");
  const tied = JSON.parse($("panel").querySelector("[data-tied]")?.dataset.tied ?? "[]");
  for (const { id, how } of tied) {
    for (const item of items().filter((one) => one.dataset.id === id)) {
      item.classList.add("tied-now");
      noteOf(item, "tie").textContent = document.querySelector(`#ties [data-how="${how}"]`).textContent;
    }
  }
}

// What the checks find: fetched once the shelf stands there.

export async function findings() {
  plan();
  const strip = $("strip");
  const asked = (findings.asked = (findings.asked ?? 0) + 1);
  const html = await piece(strip.dataset.from);
  if (asked !== findings.asked || !strip.isConnected) return;
  if (html === null) strip.textContent = phrase("unreachable");
  else strip.innerHTML = html;
  showFaces();
  showMarks();
  showFound();
}

/** The time plan in a line: redrawn with every change. */
async function plan() {
  const strip = $("plan-strip");
  const asked = (plan.asked = (plan.asked ?? 0) + 1);
  const html = await piece(strip.dataset.from);
  if (asked !== plan.asked || !strip.isConnected) return;
  if (html === null) strip.textContent = phrase("unreachable");
  else strip.innerHTML = html;
}

function marks() {
  return JSON.parse($("strip")?.querySelector("[data-marks]")?.dataset.marks ?? "{}");
}

function showMarks() {
  const found = marks();
  for (const item of items()) {
    const mark = noteOf(item, "mark");
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

/** Return the box or spot at which something new is put: the one chosen, or that it lies in. */
export function spotOf(item) {
  return item?.closest("[data-drop]")?.dataset.drop ?? "";
}

export const parentOf = (item) => item.parentElement.closest('[role="treeitem"]');
