// The fields of the bench as one draft of a way, as the game file would have it, and back again.

import { valuesOf } from "/static/studio.js";

const ELSEWHERE = ["needs", "adds", "drops"];
const byId = (id) => document.getElementById(id);
const listed = (text) => (text ?? "").split(",").map((one) => one.trim()).filter(Boolean);

export class Fields {
  /** `lock` is the lock whose code stands among them, if there is one. */
  constructor(form, lock) {
    this.form = form;
    this.lock = lock;
  }

  /** Return the fields as the game file would have them. */
  draft() {
    const raw = valuesOf(this.form);
    const found = {
      kind: raw.kind, level: raw.level, content: raw.content ?? null, place: raw.place,
      options: this.options(raw), parts: raw.parts ?? {}, hints: this.hints(raw),
      rooms: listed(raw.rooms), facilities: listed(raw.facilities), moves: this.moves(raw),
    };
    for (const name of ELSEWHERE) found[name] = raw[name] ?? [];
    if (this.lock) found.code = this.code(raw);
    return found;
  }

  options(raw) {
    const found = {};
    for (const [name, value] of Object.entries(raw.options ?? {})) {
      const control = this.form.querySelector(`[name="options.${CSS.escape(name)}"]`);
      if (control?.dataset.lines !== undefined) {
        const lines = value.split("\n").map((one) => one.trim()).filter(Boolean);
        if (lines.length) found[name] = lines;
      } else if (control?.dataset.default === undefined || JSON.stringify(value) !== control.dataset.default) {
        found[name] = value;
      }
    }
    return found;
  }

  moves(raw) {
    const more = raw.move_thing ? { [raw.move_thing]: raw.move_to } : {};
    return { ...raw.moves, ...more };
  }

  hints(raw) {
    const hints = [0, 1, 2].map((at) => (raw.hints?.[at] ?? "").trim());
    return hints.some(Boolean) ? hints : null;
  }

  code(raw) {
    const text = (raw.code ?? "").trim();
    if (raw.code_how === "auto" || !text) return "auto";
    return raw.code_how === "list" ? `one of ${text}` : text; // not read by people: the file's own words
  }

  codeHow() {
    const text = byId("code");
    text.hidden = byId("code-how").value === "auto";
    if (!text.hidden && document.activeElement === byId("code-how")) text.focus();
  }

  takeKind(name, said) {
    byId("kind").value = name;
    if (said) {
      byId("kind-title").textContent = said.title;
      byId("kind-about").textContent = said.about;
    }
  }

  put(draft) {
    const set = (name, value) => this.set(name, value);
    this.takeKind(draft.kind);
    set("level", draft.level ?? "");
    this.putContent(draft.content);
    set("place", JSON.stringify(draft.place));
    for (const at of [0, 1, 2]) set(`hints.${at}`, draft.hints?.[at] ?? "");
    set("rooms", draft.rooms.join(", "));
    set("facilities", draft.facilities.join(", "));
    if (draft.code !== undefined) this.putCode(draft.code);
    this.putOptions(draft);
    this.putElsewhere(draft);
  }

  putElsewhere(draft) {
    for (const name of ELSEWHERE) {
      for (const one of this.form.querySelectorAll(`[name="${name}[]"]`)) one.checked = (draft[name] ?? []).includes(one.value);
    }
    for (const one of this.form.querySelectorAll('[name^="moves."]')) one.value = draft.moves?.[one.name.slice("moves.".length)] ?? "";
    const more = Object.entries(draft.moves ?? {}).find(([thing]) => !this.form.elements[`moves.${thing}`]);
    if (more) { this.set("move_thing", more[0]); this.set("move_to", more[1]); }
    if (more || ELSEWHERE.some((name) => draft[name]?.length)) byId("elsewhere").open = true;
  }

  set(name, value) {
    const control = this.form.elements[name];
    if (control && !(control instanceof RadioNodeList)) control.value = value;
  }

  putContent(content) {
    if (typeof content !== "object" || content === null) this.set("content", content ?? "");
    else for (const [table, file] of Object.entries(content)) this.set(`content.${table}`, file);
  }

  putCode(code) {
    const how = code === "auto" ? "auto" : code.startsWith("one of ") ? "list" : "fixed"; // not read by people
    byId("code-how").value = how;
    byId("code").value = how === "auto" ? "" : code.replace(/^one of /, "");
    this.codeHow();
  }

  putOptions(draft) {
    for (const control of this.form.querySelectorAll('[name^="options."], [name^="parts."]')) {
      const [family, name] = control.name.replace("[]", "").split(".");
      const value = draft[family]?.[name];
      if (control.type === "checkbox") control.checked = Array.isArray(value) ? value.includes(control.value) : Boolean(value);
      else if (family === "parts") control.value = value === undefined ? "" : JSON.stringify(value);
      else if (value !== undefined) control.value = Array.isArray(value) ? value.join("\n") : value;
    }
  }
}
