// The story, changed a paragraph at a time: the page holds all of it, and one change sends
// the part that it is about. A paragraph is read again by the studio while it is written.

import { clearComplaints, perform } from "./studio.js";

const PAUSE_MS = 150;

const written = () => JSON.parse(document.getElementById("written").textContent);
const partOf = (form) => form.closest("[data-part]").dataset.part;

/** Return what a form holds as the game's file has it. */
function oneOf(form, part, old) {
  const text = form.querySelector(".writes").value;
  if (part === "debrief") {
    const goal = form.dataset.goal ?? form.querySelector(".goal-of").value;
    return { ask: text, ...(goal ? { goal } : {}) };
  }
  const when = form.querySelector(".when")?.value ?? old?.when;
  return when ? { when, text } : text;
}

function send(form, list, focus) {
  if (document.body.classList.contains("busy")) return null; // the list was made from what goes now
  const part = partOf(form);
  return perform("story.write", { [part]: list }, { home: form, focus });
}

document.addEventListener("submit", (event) => {
  const form = event.target.closest("form.write");
  if (!form) return;
  event.preventDefault();
  const part = partOf(form);
  const list = written()[part];
  const at = form.dataset.index === undefined ? list.length : Number(form.dataset.index);
  list[at] = oneOf(form, part, list[at]);
  const opener = form.closest("details").querySelector("summary").id;
  send(form, list, opener);
});

document.addEventListener("click", (event) => {
  const button = event.target.closest("form.write button[type=button]");
  if (!button) return;
  const form = button.closest("form.write");
  if (button.classList.contains("puts")) put(form);
  else if (button.classList.contains("removes")) remove(form);
  else if (button.dataset.step) move(form, Number(button.dataset.step));
});

function remove(form) {
  const list = written()[partOf(form)];
  list.splice(Number(form.dataset.index), 1);
  send(form, list, "page");
}

/** Swap a paragraph with its neighbour; questions pass those of other goals. */
function move(form, step) {
  const part = partOf(form);
  const list = written()[part];
  const at = Number(form.dataset.index);
  let to = at + step;
  if (part === "debrief") while (list[to] && list[to].goal !== list[at].goal) to += step;
  if (!list[to]) return;
  [list[at], list[to]] = [list[to], list[at]];
  send(form, list, `${part}-${to}-change`);
}

/** Put the chosen name where the text cursor is. */
function put(form) {
  const text = form.querySelector(".writes");
  text.setRangeText(`{${form.querySelector(".names").value}}`, text.selectionStart, text.selectionEnd, "end");
  text.focus();
  text.dispatchEvent(new Event("input", { bubbles: true }));
}

// While it is written: how it will be told, and which names mean nothing.
const waiting = new WeakMap();
document.addEventListener("input", (event) => {
  if (!event.target.matches("form.write .writes")) return;
  clearTimeout(waiting.get(event.target));
  waiting.set(event.target, setTimeout(() => tellNow(event.target), PAUSE_MS));
});

async function tellNow(text) {
  const asked = text.value;
  const answer = await fetch(`${document.body.dataset.game}/story/told`, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ text: asked }),
  }).catch(() => null);
  const now = text.closest("form").querySelector(".told-now");
  if (!answer?.ok || text.value !== asked) return;
  now.innerHTML = await answer.text();
  const wrong = now.querySelector(".problem") !== null;
  text.toggleAttribute("aria-invalid", wrong);
  if (wrong) text.setAttribute("aria-invalid", "true");
  else clearComplaints(text.closest("form"));
}
