// Ticks: shown at once, kept on this device until the studio has them, sent one after the other.
// What another tablet ticks is asked for every two seconds.

import { clearComplaints, complain } from "./studio.js";
import { Taps } from "./hour-taps.js";

const EVERY_MS = 2000;
const TWICE_MS = 350;
const find = (id) => document.getElementById(id);
const list = () => find("checklist");

// What waits to be sent.

let taps = null; // those of the list that is shown
let made = 0;

function query() {
  return new URLSearchParams({ list: list().dataset.list, of: list().dataset.of });
}

const waiting = () => taps.keys().map((key) => JSON.parse(localStorage.getItem(key)));

/** Show what became of a tap; one that was not taken is not ticked either. */
async function answered(one) {
  if (one.now) stand(one.now);
  if (!one.problems.length) return;
  await look();
  complain(find("refused"), one.problems);
}

async function look() {
  const before = made;
  try {
    const answer = await fetch(`${list().dataset.here}/now?${query()}`, { headers: { Accept: "application/json" } });
    const data = await answer.json();
    if (made !== before) return; // what it tells is older than the last tap
    if (answer.ok) { clearComplaints(find("refused")); stand(data); }
    else if (!find("refused").firstChild) complain(find("refused"), data.problems ?? []);
  } catch { /* the next look will tell */ }
}

// What stands on the page.

const boxesOf = (row) => [...row.querySelectorAll("input[type=checkbox]")];
const isDone = (row) => boxesOf(row).every((box) => box.checked);

/** Show what the studio knows, and upon it what it does not know yet. */
function stand(now) {
  const ticked = new Set(now.ticked);
  for (const { type, data } of waiting()) {
    if (type === "undone") ticked.delete(data.step);
    else ticked.add(data.step);
  }
  for (const box of list().querySelectorAll(".box input")) box.checked = ticked.has(box.value);
  if (find("progress").textContent !== now.said) find("progress").textContent = now.said;
  find("bar").value = now.done;
  find("ready").hidden = now.done < now.of;
  showNext();
}

function showNext() {
  const rows = [...list().querySelectorAll(".step")];
  for (const row of rows) row.classList.toggle("done", isDone(row));
  for (const button of list().querySelectorAll("button.all")) offer(button);
  const next = rows.find((row) => !isDone(row));
  list().querySelector(".step.here")?.classList.remove("here");
  next?.classList.add("here");
  const link = find("next");
  link.hidden = !next;
  if (!next) return;
  link.href = `#${next.id}`;
  link.textContent = list().dataset.next.replace("{what}", next.querySelector(".what").firstChild.textContent.trim());
}

/** Bring a row into view, if it is not. */
function bring(row) {
  const { top, bottom } = row.getBoundingClientRect();
  if (top >= find("so-far").getBoundingClientRect().bottom && bottom <= innerHeight) return;
  const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
  row.scrollIntoView({ block: "center", behavior: calm ? "auto" : "smooth" });
}

const nextRow = () => list().querySelector(".step.here");

// Taps.

document.addEventListener("change", (event) => {
  const box = event.target.closest(".box input");
  if (!box) return;
  const row = box.closest(".step");
  const inTurn = row === nextRow();
  made += 1;
  taps.tap(box.checked ? "step.ticked" : "undone", { step: box.value });
  showNext();
  if (inTurn && isDone(row) && nextRow()) bring(nextRow());
});

// A hand that taps twice by mistake means one tick.
let lastTap = { on: null, at: 0 };
document.addEventListener("click", (event) => {
  const on = event.target.closest(".box input, button.all");
  if (!on) return;
  if (lastTap.on === on && event.timeStamp - lastTap.at < TWICE_MS) event.preventDefault();
  else lastTap = { on, at: event.timeStamp };
  if (on.matches("button.all") && !event.defaultPrevented) atOnce(on);
});

// A section at once: ticked by one tap, and what that tap ticked is taken back by another.

const boxesBelow = (button) => [...button.closest(".section").querySelectorAll(".box input")];
const keyOf = (button) => `boxwright.at-once.${list().dataset.list}.${list().dataset.of}.${button.value}`;
const tickedAtOnce = (button) => JSON.parse(sessionStorage.getItem(keyOf(button)) ?? "[]");

/** Show what a tap on a section's button would do; one box alone needs no button. */
function offer(button) {
  const boxes = boxesBelow(button), open = boxes.filter((box) => !box.checked).length;
  if (open) sessionStorage.removeItem(keyOf(button));
  const n = open || tickedAtOnce(button).length;
  const { tickAll, takeBack } = list().dataset;
  button.textContent = (open ? tickAll : takeBack).replace("{n}", n);
  button.hidden = n < 2;
}

function atOnce(button) {
  const boxes = boxesBelow(button), before = tickedAtOnce(button);
  const type = before.length ? "undone" : "step.ticked";
  const meant = boxes.filter((box) => (before.length ? before.includes(box.value) : !box.checked));
  sessionStorage.setItem(keyOf(button), JSON.stringify(before.length ? [] : meant.map((box) => box.value)));
  made += 1;
  for (const box of meant) {
    box.checked = type === "step.ticked";
    taps.tap(type, { step: box.value });
  }
  showNext();
}

document.addEventListener("click", (event) => {
  if (event.target.closest("#next")) {
    event.preventDefault();
    const row = nextRow();
    bring(row);
    boxesOf(row).find((box) => !box.checked)?.focus({ preventScroll: true });
  }
  const opener = event.target.closest("[data-look]");
  if (opener) find(opener.dataset.look).showModal();
  if (event.target.matches("dialog.close-up")) event.target.close(); // beside what it shows
});

function begin() {
  if (!list()) return;
  const { here, of, list: name } = list().dataset;
  taps = new Taps(`${here}/taps?${query()}`, `${name}.${of}`, {
    answered,
    waiting: (n) => { find("waits").hidden = n === 0; },
  });
  showNext();
}
document.addEventListener("page:shown", begin);
begin();

setInterval(() => { if (list() && !document.hidden && !taps.keys().length) look(); }, EVERY_MS);
