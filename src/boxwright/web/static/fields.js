// What a form of many optional fields asks for: of something new all that was filled in, of
// something known (`data-changes`) only what was changed, nothing meaning "take it away".
//
// A form says with `data-asks` which command it is for. Fields in `[data-for]` count only
// while the field named `mechanism` has one of those values.

import { complain, perform, phrase, valuesOf } from "./studio.js";

const isBlank = (value) => value === null || value === "" || (Array.isArray(value) && value.every(isBlank));

/** Return what `form` asks for; `read` may make something else of a field's value. */
export function askedOf(form, read = {}) {
  const values = valuesOf(form);
  const known = form.dataset.changes !== undefined;
  const touched = new Set([...form.elements].filter(isChanged).map((one) => nameOf(one)));
  const asked = {};
  for (const [name, value] of Object.entries(values)) {
    const always = (form.dataset.changes ?? "").split(" ").includes(name);
    if (known && !always && !touched.has(name)) continue;
    const said = isBlank(value) ? null : (read[name]?.(value, values, form) ?? value);
    if (known || (said !== null && (typeof said !== "boolean" || touched.has(name)))) asked[name] = said;
  }
  for (const name of touched) if (known && !(name in asked)) asked[name] = emptied(form, name);
  return asked;
}

const nameOf = (control) => control.name.replace(/\[\]$/, "").split(".")[0];

/** What all ticks of a list taken off come to. */
const emptied = (form, name) => (form.dataset.keepsEmpty?.split(" ").includes(name) ? [] : null);

function isChanged(control) {
  if (!control.name || control.disabled) return false;
  if (control.type === "checkbox" || control.type === "radio") return control.checked !== control.defaultChecked;
  if (control.options) return [...control.options].some((one) => one.selected !== one.defaultSelected);
  return control.value !== control.defaultValue;
}

/** Return of numbers that belong together (long, broad, high) the first missing one, where some are there. */
export function missing(form) {
  const numbers = [...form.elements].filter(isOneOfSeveral);
  const names = [...new Set(numbers.map((one) => one.name))];
  const groups = names.map((name) => numbers.filter((one) => one.name === name));
  return groups.filter((all) => !all.every(isEmpty)).flatMap((all) => all.find(isEmpty) ?? []);
}

/** Say what is missing, beside it. */
export function tellMissing(form, how) {
  complain(form, missing(form).map((field) => ({ what: phrase("half"), remedy: phrase("half-remedy"), field })), how);
}

const isEmpty = (one) => one.value.trim() === "";

const isOneOfSeveral = (one) => one.type === "number" && !one.disabled && (one.name.endsWith("[]") || one.form.dataset.as === "numbers");

/** Send such forms from now on. */
export function sendForms(read = {}) {
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!form.dataset.asks) return;
    event.preventDefault();
    if (missing(form).length) { tellMissing(form); return; }
    perform(form.dataset.asks, askedOf(form, read), { home: form, focus: form.dataset.focus });
  });
  document.addEventListener("change", (event) => {
    if (event.target.name === "mechanism") fit(event.target.form);
  });
  const fitAll = () => document.querySelectorAll("form[data-asks]").forEach(fit);
  document.addEventListener("page:shown", fitAll);
  fitAll();
}

/** Show the fields that go with the chosen mechanism, and those alone. */
export function fit(form) {
  const chosen = form.elements.mechanism?.value;
  if (chosen === undefined) return;
  for (const part of form.querySelectorAll("[data-for]")) {
    part.hidden = !part.dataset.for.split(" ").includes(chosen);
    for (const one of part.querySelectorAll("input, select, textarea")) one.disabled = part.hidden;
  }
}
