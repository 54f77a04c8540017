// Things to fix: asked for once the page stands there; dismissed and brought back without a reload.

import { complain, piece, post } from "./studio.js";

const home = () => document.getElementById("found");

async function look(focus = null) {
  const place = home();
  if (!place) return;
  const asked = (look.asked = (look.asked ?? 0) + 1);
  const html = await piece(place.dataset.from);
  if (asked !== look.asked || !place.isConnected) return;
  const open = new Set([...place.querySelectorAll("details[open]")].map((one) => one.className));
  if (html === null) place.replaceChildren(document.getElementById("unanswered").content.cloneNode(true));
  else place.innerHTML = html;
  for (const one of place.querySelectorAll("details")) one.open = open.has(one.className);
  place.setAttribute("aria-busy", "false");
  const meant = focus === null && location.hash ? document.getElementById(location.hash.slice(1)) : null;
  if (meant) {
    const hidden = meant.closest("details");
    if (hidden) hidden.open = true;
    meant.focus();
    meant.scrollIntoView({ block: "center" });
  }
  if (focus !== null) (place.querySelector(focus) ?? document.getElementById("page")).focus();
}

document.addEventListener("click", async (event) => {
  const button = event.target.closest("[data-put]");
  if (event.target.closest("[data-again]")) { look(); return; }
  if (!button || button.disabled) return;
  button.disabled = true;
  const next = button.closest(".finding").nextElementSibling ?? button.closest(".finding").previousElementSibling;
  const answer = await post(button.dataset.put, { finding: button.dataset.finding });
  if (answer.ok) await look(next?.id ? `#${next.id}` : "summary, a, button"); // not read by people
  else { button.disabled = false; complain(button.closest("[data-home]"), answer.data.problems ?? []); }
});

document.addEventListener("page:shown", () => look());
look();
