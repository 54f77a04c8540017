// The shelf: forms, and the words that a lock can show, asked for when they are wanted.

import { sendForms } from "./fields.js";
import { piece } from "./studio.js";

const SPELT = ["number-wheels", "letter-wheels"];

/** Wheels as they were typed, a line each; one line alone stands for all of them. */
function faces(text, values, form) {
  const lines = text.split("\n").map((line) => line.trim()).filter(Boolean);
  const spelt = SPELT.includes(values.mechanism ?? form.dataset.mechanism);
  const wheels = lines.map((line) => (spelt ? line.replace(/\s+/g, "") : line.split(/[\s,]+/).filter(Boolean)));
  return wheels.length === 1 ? wheels[0] : wheels;
}

sendForms({ faces });

// A make says itself what sort of lock it is; one may be chosen before this script is there.
function follow(model) {
  const mechanism = model.form.elements.mechanism;
  mechanism.value = model.value ? "" : "number-wheels";
  mechanism.dispatchEvent(new Event("change", { bubbles: true }));
}

document.addEventListener("change", (event) => { if (event.target.name === "model") follow(event.target); });
for (const model of document.querySelectorAll('select[name="model"]')) if (model.value) follow(model);

document.addEventListener("toggle", async (event) => {
  const home = event.target.querySelector?.("[data-words]");
  if (!home || !event.target.open || home.childElementCount > 1) return;
  const html = await piece(home.dataset.words);
  if (html !== null) home.innerHTML = html;
}, true);
