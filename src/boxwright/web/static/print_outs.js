// The print-outs: pages come after the page itself, with a line that tells how far they are; the
// look is chosen without a reload; a page opens large; pages with codes stay covered until asked for.

import { clearComplaints, complain, post, tell, valuesOf } from "./studio.js";

const PAPER = "boxwright.paper";
const chosen = { grey: false, codes: false };
let asked = 0;

const at = (id) => document.getElementById(id);

function query() {
  const look = at("look");
  return new URLSearchParams({ paper: look.elements.paper.value, size: look.elements.size.value });
}

/** Ask for all pages in the look that is chosen, and tell meanwhile how far they are. */
async function fill() {
  const home = at("pages");
  if (!home) return;
  const turn = ++asked;
  const waiting = setInterval(() => soFar(home, turn), 400);
  try {
    const answer = await fetch(`${home.dataset.pages}?${query()}`, { headers: { Accept: "text/html" } });
    const text = await answer.text();
    if (turn !== asked || !home.isConnected) return;
    if (!answer.ok) throw new Error(String(answer.status));
    home.innerHTML = text;
    dress();
  } catch {
    if (turn !== asked) return;
    home.replaceChildren();
    complain(home, [{ what: home.dataset.failed, remedy: home.dataset.failedRemedy }]);
  } finally {
    clearInterval(waiting);
  }
}

async function soFar(home, turn) {
  const line = home.querySelector(".waiting");
  if (!line) return;
  try {
    const now = await (await fetch(`${home.dataset.progress}?${query()}`)).json();
    if (turn !== asked || !line.isConnected || !now.of) return;
    home.querySelector("progress").value = now.done / now.of;
    line.textContent = line.dataset.soFar.replace("{done}", now.done).replace("{of}", now.of);
  } catch { /* the pages themselves will tell */ }
}

/** Let grey and covered pages be as the ticks say. */
function dress() {
  const home = at("pages");
  for (const name of ["grey", "codes"]) {
    home.classList.toggle(name, chosen[name]);
    at(name).checked = chosen[name];
  }
  at("large").classList.toggle("grey", chosen.grey);
  if (!chosen.codes) return;
  for (const picture of home.querySelectorAll("[data-later]")) {
    picture.src = picture.dataset.later;
    picture.removeAttribute("data-later");
  }
}

function lookChanged(event) {
  if (event.target.id in chosen) {
    chosen[event.target.id] = event.target.checked;
    dress();
    return;
  }
  localStorage.setItem(PAPER, at("look").elements.paper.value);
  const address = new URL(location.href);
  for (const [name, value] of query()) address.searchParams.set(name, value);
  history.replaceState(null, "", address);
  carry();
  const home = at("pages");
  home.replaceChildren(at("waiting").content.cloneNode(true));
  fill();
}

/** What is saved or downloaded looks as what is shown. */
function carry() {
  const zip = at("zip");
  if (!zip) return;
  zip.href = `${zip.pathname}?${query()}`;
  for (const [name, value] of query()) at("save").elements[name].value = value;
}

/** Save all files; the page stays as it is, since nothing on it changes. */
async function save(form) {
  busy(form, true);
  const answer = await post(form.dataset.save, valuesOf(form));
  busy(form, false);
  clearComplaints(form);
  if (answer.ok) tell(answer.data.said);
  else { tell(""); complain(form, answer.data.problems ?? []); }
}

// One page, large.

let shown = null;

function large(link) {
  const dialog = at("large");
  const small = link.querySelector("img");
  shown = link;
  at("large-title").textContent = small.alt;
  const picture = dialog.querySelector("img");
  picture.src = link.href;
  picture.alt = small.alt;
  picture.width = small.width;
  picture.height = small.height;
  for (const button of dialog.querySelectorAll("[data-step]")) button.disabled = !beside(Number(button.dataset.step));
  if (!dialog.open) dialog.showModal();
}

function beside(step) {
  const links = [...at("pages").querySelectorAll(".thumb")].filter((one) => one.offsetParent !== null);
  return links[links.indexOf(shown) + step];
}

function turn(step) {
  const next = beside(step);
  if (next) large(next);
}

// The form for another printed set: as many tables as there are.

function tables() {
  const number = at("groups");
  if (!number) return;
  for (const table of document.querySelectorAll("[data-table]")) {
    const there = Number(table.dataset.table) <= Number(number.value || number.min);
    table.hidden = !there;
    table.querySelector("select").disabled = !there;
  }
}

/** A form that takes a while says so, and cannot be sent twice. */
function busy(form, is) {
  if (!form.dataset.busy) return;
  for (const control of form.elements) if (control.type === "submit") control.disabled = is;
  if (is) tell(form.dataset.busy);
}

function arrived() {
  tables();
  const look = at("look");
  if (!look) return;
  const usual = localStorage.getItem(PAPER);
  if (usual && !new URL(location.href).searchParams.has("paper")) look.elements.paper.value = usual;
  carry();
  fill();
}

document.addEventListener("change", (event) => {
  if (event.target.closest("#look")) lookChanged(event);
});
document.addEventListener("input", (event) => { if (event.target.id === "groups") tables(); });
document.addEventListener("submit", (event) => {
  if (["look", "save"].includes(event.target.id)) event.preventDefault();
  if (event.target.id === "save") save(event.target);
  else busy(event.target, true);
});
new MutationObserver(() => {
  if (document.body.classList.contains("busy")) return;
  for (const form of document.querySelectorAll("form[data-busy]")) busy(form, false);
}).observe(document.body, { attributeFilter: ["class"] });
document.addEventListener("click", (event) => {
  const link = event.target.closest(".thumb");
  const step = event.target.closest("#large [data-step]");
  if (step) turn(Number(step.dataset.step));
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  large(link);
});
document.addEventListener("keydown", (event) => {
  if (!at("large")?.open) return;
  if (event.key === "ArrowLeft") turn(-1);
  if (event.key === "ArrowRight") turn(1);
});
document.addEventListener("close", (event) => { if (event.target.id === "large") shown?.focus(); }, true);
document.addEventListener("page:shown", arrived);
arrived();
