// One table close by: beside the room where there is space, over it where there is not.

import { clearComplaints, complain, post } from "./studio.js";

const WIDE = matchMedia("(min-width: 76rem)");

export class AtTable {
  constructor(dialog, taps) {
    Object.assign(this, { dialog, taps, group: null, from: null, asking: 0, shown: null, told: new Map() });
    this.inside = document.getElementById("at-table-in");
    this.nobody = this.inside.innerHTML;
    this.title = document.getElementById("at-table-name");
    this.noname = this.title.textContent;
    this.place();
    WIDE.addEventListener("change", () => this.place());
    document.getElementById("leave-table").addEventListener("click", () => this.leave());
    dialog.addEventListener("cancel", (event) => { event.preventDefault(); this.leave(); });
    dialog.addEventListener("keydown", (event) => { if (event.key === "Escape" && this.group) { event.preventDefault(); this.leave(); } });
    dialog.addEventListener("submit", (event) => this.asked(event));
    for (const type of ["pointerdown", "keydown"]) dialog.addEventListener(type, (event) => this.hold(event));
    for (const type of ["pointerup", "pointercancel", "keyup", "blur"]) addEventListener(type, () => this.cover());
    dialog.addEventListener("contextmenu", (event) => { if (event.target.closest("[data-hold]")) event.preventDefault(); });
    dialog.addEventListener("click", (event) => { if (event.target.closest("[data-again]")) this.load(); });
  }

  /** Where there is space the table stands beside the room, always; else it is over it, when asked. */
  place() {
    if (this.dialog.open) this.dialog.close();
    if (WIDE.matches) this.dialog.show();
    else if (this.group) this.dialog.showModal();
    if (!WIDE.matches && !this.group) return;
    if (!this.group) document.activeElement?.blur();
  }

  async show(group, button) {
    this.from = button.id;
    const other = group !== this.group;
    this.group = group;
    if (other) this.forget();
    for (const tile of document.querySelectorAll(".tile")) tile.classList.toggle("looked-at", tile.dataset.group === group);
    if (!this.dialog.open) this.dialog.showModal();
    document.getElementById("leave-table").hidden = false;
    if (other) {
      this.title.textContent = button.textContent;
      this.inside.replaceChildren(document.getElementById("waiting").content.cloneNode(true));
    }
    this.title.focus();
    await this.load();
  }

  leave() {
    this.group = null;
    this.forget();
    for (const tile of document.querySelectorAll(".looked-at")) tile.classList.remove("looked-at");
    this.inside.innerHTML = this.nobody;
    this.title.textContent = this.noname;
    document.getElementById("leave-table").hidden = true;
    if (!WIDE.matches) this.dialog.close();
    document.getElementById(this.from)?.focus();
  }

  /** Forget what was shown and told of one table, before another is shown. */
  forget() {
    this.shown = null;
    this.told.clear();
  }

  /** Leave a table that lies over the room, to see what stands there. */
  giveWay() { if (this.group && !WIDE.matches) this.leave(); }

  refresh() { if (this.group) this.load(); }

  async load() {
    const group = this.group;
    const asking = (this.asking += 1); // what was asked for earlier may come later
    let html = null;
    try {
      const answer = await fetch(`${this.dialog.dataset.from}/${group}`, { headers: { Accept: "application/json" } });
      if (answer.ok) html = await answer.text();
      else if (answer.status === 422) { this.shown = null; this.inside.replaceChildren(); complain(this.inside, (await answer.json()).problems); return; }
    } catch { /* told below, unless something is there already */ }
    if (group !== this.group || asking !== this.asking) return;
    if (html !== null) { if (html !== this.shown) this.put(html); }
    else if (!this.inside.querySelector("article, section")) this.inside.replaceChildren(document.getElementById("unanswered").content.cloneNode(true));
  }

  /** Put a table anew in place: what was typed, opened, told, and where the focus was stays. */
  put(html) {
    const held = document.activeElement?.id;
    const had = this.inside.contains(document.activeElement);
    const [typed, open] = [new Map(), new Set()];
    for (const one of this.inside.querySelectorAll("input[id], textarea[id], select[id]")) typed.set(one.id, one.value);
    for (const one of this.inside.querySelectorAll("details[open][id]")) open.add(one.id);
    const top = this.dialog.scrollTop;
    this.inside.innerHTML = html;
    this.shown = html;
    for (const [id, value] of typed) { const one = document.getElementById(id); if (one) one.value = value; }
    for (const id of open) document.getElementById(id)?.setAttribute("open", "");
    for (const address of this.told.keys()) this.tell(address);
    this.title.textContent = this.inside.querySelector("#table-name").content.textContent;
    this.dialog.scrollTop = top;
    if (had) (document.getElementById(held) ?? this.title).focus({ preventScroll: true });
  }

  /** Name an answer that was brought; which one it was stays here. */
  async asked(event) {
    const form = event.target;
    const address = form.dataset.name;
    if (!address) return;
    event.preventDefault();
    const group = this.group;
    const { ok, data } = await post(address, { text: form.elements.text.value }, null);
    const { html = "", lock, right, problems = [] } = data;
    if (ok && lock) this.taps.tap("code.tried", { group, lock, right });
    if (group !== this.group) return;
    this.told.set(address, { html, problems });
    this.tell(address, { focus: true });
  }

  /** Tell what an answer is, in the form that stands for it now: the table may have been put anew meanwhile. */
  tell(address, { focus = false } = {}) {
    const form = this.inside.querySelector(`[data-name="${address}"]`);
    if (!form) return;
    const { html, problems } = this.told.get(address);
    form.querySelector("output").innerHTML = html;
    clearComplaints(form);
    if (problems.length) complain(form, problems, { focus });
  }

  /** An answer shows only while its button is held: by a finger, or by a key. */
  hold(event) {
    const button = event.target.closest("[data-hold]");
    if (!button || (event.type === "keydown" && event.key !== " " && event.key !== "Enter")) return;
    document.getElementById(button.dataset.hold).hidden = false;
    button.setAttribute("aria-pressed", "true");
  }

  cover() {
    for (const one of this.dialog.querySelectorAll(".held:not([hidden])")) one.hidden = true;
    for (const one of this.dialog.querySelectorAll("[data-hold][aria-pressed]")) one.removeAttribute("aria-pressed");
  }
}
