// What the forms beside the shelf ask for, as named commands of the game.

import { fit, missing } from "./fields.js";
import { clearComplaints, perform, phrase, piece, show, tell, valuesOf } from "./studio.js";
import { $, addressWith, items, parentOf, pick, picked, spotOf } from "./boxes-shelf.js";

const homeOf = () => $("panel").querySelector(".thing") ?? $("page");

/** Move a thing to `target`, as its `data-moves` says. */
export function move(element, target, home = homeOf()) {
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
export async function setField(form) {
  if (missing(form).length) return;
  const id = $("panel").querySelector(".thing").dataset.thing;
  await perform("thing.set", { id, field: form.dataset.set, value: valueOf(form) }, { home: form });
}

export async function rename(form) {
  const { id, new: name } = valuesOf(form);
  if (name === id) return;
  const wish = addressWith(name);
  const before = location.href;
  history.replaceState(null, "", wish);
  const answer = await perform("thing.rename", { id, new: name }, { home: form, focus: "set-name" });
  if (!answer.ok) history.replaceState(null, "", before);
}

export async function openAdding(sort, at, gives) {
  const dialog = $("adding");
  const url = new URL($("panel").dataset.adding, location.href);
  url.searchParams.set("sort", sort);
  if (at) url.searchParams.set("at", at);
  if (gives) url.searchParams.set("gives", gives);
  const html = await piece(url);
  if (html === null) { tell(phrase("unreachable")); return; }
  const name = dialog.open ? dialog.querySelector('[name="name"]')?.value : "";
  dialog.innerHTML = html;
  dialog.dataset.at = at ?? "";
  if (name) dialog.querySelector('[name="name"]').value = name;
  const form = dialog.querySelector("form");
  if (form) fit(form);
  if (!dialog.open) dialog.showModal();
  dialog.querySelector("[autofocus], select, input, button")?.focus();
}

export async function addThing(form) {
  const asked = Object.fromEntries(Object.entries(valuesOf(form)).filter(([, value]) => value !== false));
  if (typeof asked.faces === "string") asked.faces = asked.faces.split(/[\s,;]+/).filter(Boolean);
  if (asked.length) asked.length = [asked.length, asked.length];
  const before = new Set(items().map((one) => one.dataset.id));
  const answer = await perform(form.dataset.add, asked, { home: form });
  if (!answer.ok) return;
  const fresh = items().find((one) => !before.has(one.dataset.id));
  if (fresh) pick(fresh);
}

export async function remove(form) {
  const above = picked()?.parentElement.closest('[role="treeitem"]');
  const asked = { id: form.dataset.remove };
  if ("withClue" in form.dataset) asked.with_clue = true;
  const before = location.href;
  history.replaceState(null, "", addressWith(above?.dataset.id ?? null));
  const answer = await perform("thing.remove", asked, { home: form, focus: above?.id });
  if (!answer.ok) history.replaceState(null, "", before);
}

// Wishes: they stand in the address; what the place has stands in its file.

export async function wish(form) {
  const url = new URL(location.href);
  const values = valuesOf(form);
  const [name, value] = values.ways.split("=");
  for (const one of ["level", "arrangement", "groups"]) url.searchParams.delete(one);
  if (value) url.searchParams.set(name, value);
  if (values.groups) url.searchParams.set("groups", values.groups);
  await show(url.href, { push: true, focus: document.activeElement?.id });
}

export async function furnish(form) {
  const facilities = [...form.querySelectorAll('[name="facilities"]:checked')].map((one) => one.value);
  const asked = { facilities, setting: form.elements.setting.value };
  await perform("room.describe", asked, { home: form, focus: document.activeElement?.id });
}

/** Ask for a new thing: a clue to the chosen lock lies beside its box, not in it. */
export function begin(sort, dialog) {
  const item = picked();
  const size = item?.dataset.size;
  if (sort === "clue" && size === "lock") openAdding(sort, spotOf(parentOf(parentOf(item))), item.dataset.id);
  else openAdding(sort, dialog?.dataset.at || spotOf(item), size === "small" ? item.dataset.id : null);
}

export function ask() {
  const dialog = $("panel").querySelector("dialog.question");
  clearComplaints(dialog.querySelector("form"));
  dialog.showModal();
  dialog.querySelector("[data-keep]").focus();
}
