// The bar follows the fields while they are moved; nothing is kept before the button is pressed.

import { phrase, piece } from "./studio.js";

const PARTS = ["settle", "briefing", "play", "debrief", "tidy"];
const NARROWEST = 2.5; // hundredths of the bar in which two figures fit

const form = () => document.getElementById("times");
const minutesOf = (name) => Number(form().elements[name].value) || 0;

document.addEventListener("input", (event) => {
  if (event.target.form !== form() || !form()) return;
  const of = event.target.dataset.of;
  if (of) form().elements[of].value = event.target.value;
  else follow(event.target);
  draw(true);
});

document.addEventListener("reset", (event) => {
  if (event.target === form()) setTimeout(() => draw(false));
});

/** Let the slider beside a number stand where the number says. */
function follow(field) {
  const slider = form().querySelector(`[data-of="${field.name}"]`);
  if (Number(field.value) > Number(slider.max)) slider.max = field.value;
  slider.value = field.value;
}

function draw(touched) {
  const whole = Math.max(minutesOf("bell_to_bell"), 1);
  const spent = PARTS.filter((name) => name !== "play").reduce((sum, name) => sum + minutesOf(name), 0);
  const play = Math.max(0, whole - spent);
  const starts = {};
  let at = 0;
  for (const name of PARTS) {
    const minutes = name === "play" ? play : minutesOf(name);
    starts[name] = at;
    drawPart(name, (100 * at) / whole, Math.min((100 * minutes) / whole, Math.max(0, 100 - (100 * at) / whole)), minutes);
    at += minutes;
  }
  document.getElementById("rest").value = play;
  document.getElementById("no-play").hidden = spent < whole;
  if (touched) document.querySelector(".ticks").setAttribute("visibility", whole === Number(form().elements.bell_to_bell.defaultValue) ? "visible" : "hidden");
  drawNeeds(starts, whole, play, touched);
}

function drawPart(name, start, width, minutes) {
  const part = document.querySelector(`#period [data-part="${name}"]`);
  for (const rect of part.querySelectorAll("rect")) {
    rect.setAttribute("x", `${start}%`);
    rect.setAttribute("width", `${Math.max(width, 0)}%`);
  }
  const text = part.querySelector("text");
  text.setAttribute("x", `${start + width / 2}%`);
  text.textContent = width >= NARROWEST ? minutes : "";
}

/** Draw what clues and story take under the parts that they have to fit into. */
function drawNeeds(starts, whole, play, touched) {
  const need = document.getElementById("need");
  if (!need) return;
  const [middle, slow, aloud] = ["middle", "slow", "aloud"].map((name) => Number(need.dataset[name] ?? 0));
  bar("bar-play", starts.play, middle, whole);
  bar("bar-slow", starts.play, slow, whole);
  bar("bar-aloud", starts.briefing, aloud, whole);
  document.getElementById("found").hidden = touched;
  document.getElementById("as-kept").hidden = !touched;
  show("short-play", touched && slow > play);
  show("short-aloud", touched && aloud > minutesOf("briefing"));
}

function show(id, shown) {
  const element = document.getElementById(id);
  if (element) element.hidden = !shown;
}

function bar(id, start, minutes, whole) {
  const rect = document.getElementById(id);
  rect.setAttribute("x", `${(100 * start) / whole}%`);
  rect.setAttribute("width", `${Math.max(0, Math.min((100 * minutes) / whole, 100 - (100 * start) / whole))}%`);
}

async function put(id) {
  const home = document.getElementById(id);
  const html = await piece(home.dataset.from);
  if (html !== null) home.innerHTML = html;
  else home.textContent = phrase("unreachable");
  home.closest("section").removeAttribute("aria-busy");
  return home.isConnected;
}

async function ask() {
  if (!(await put("plan"))) return;
  draw(false);
  await put("helps");
}

document.addEventListener("page:shown", ask);
ask();
