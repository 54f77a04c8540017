// The shelf: chosen by mouse, touch or keys; things are dragged, or moved from a list.
//
// `data-moves` of a thing says which command moves it and which argument takes the new place,
// `data-size` what a place must hold for it (`data-holds`).

import { tell } from "./studio.js";
import { dragging } from "./boxes-drag.js";
import { fit, missing, tellMissing } from "./fields.js";
import { addThing, ask, begin, furnish, move, openAdding, remove, rename, setField, wish } from "./boxes-forms.js";
import { $, addressWith, findings, itemOf, items, panelShown, parentOf, pick, picked, said, shelf, spotOf, unpick } from "./boxes-shelf.js";

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
  else if (event.target.id === "new-kind" && $("new-content")) $("new-content").value = event.target.selectedOptions[0].dataset.table;
  else if (event.target.name === "mechanism") fit(form);
  else if (event.target.name === "gives" && form.dataset.add) openAdding("clue", dialogOf(form).dataset.at, event.target.value);
});

// Numbers that belong together are looked at once all of them are left.
document.addEventListener("focusout", (event) => {
  const form = event.target.form;
  if (form?.dataset.as !== "numbers" || form.contains(event.relatedTarget)) return;
  if (missing(form).length) tellMissing(form, { focus: false });
});

// Keys on the shelf.

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

/** Choose a thing if it is not chosen yet, and go on once the panel tells of it. */
async function pickAnd(item, then) {
  await (item.getAttribute("aria-selected") === "true" ? pick.shown : pick(item));
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
