// After: solutions are fetched when somebody wants them; forgetting is asked about first. Taps that
// this browser could not send while the hour lasted are sent now.

import { Taps } from "./hour-taps.js";
import { complain } from "./studio.js";

const find = (id) => document.getElementById(id);

const played = find("played");
if (played) new Taps(played.dataset.taps, played.dataset.session);

async function load() {
  const home = find("solutions");
  if (home.dataset.there) return;
  try {
    const answer = await fetch(home.dataset.from, { headers: { Accept: "application/json" } });
    if (answer.status === 422) { complain(home, (await answer.json()).problems); return; }
    if (!answer.ok) throw new Error(answer.status);
    home.innerHTML = await answer.text();
    home.dataset.there = "yes";
  } catch {
    home.replaceChildren(find("unanswered").content.cloneNode(true));
  }
}

document.addEventListener("toggle", (event) => { if (event.target.id === "solutions-of" && event.target.open) load(); }, true);

document.addEventListener("click", (event) => {
  if (event.target.closest("[data-again]")) load();
  if (event.target.closest("#ask-forget")) find("forget").showModal();
  if (event.target.closest("#keep-it")) find("forget").close();
});
