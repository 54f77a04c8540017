// The wall: what is shown is chosen here and kept for this screen; the rest comes from the session.

import { PlayClock, Wire, onClock, putPieces, timeOfDay } from "./hour-live.js";

const body = document.body;
const { home, session } = body.dataset;
const IDLE = 3500;
const WAITING = 2000;
const key = `boxwright.wall.${session ?? "before"}`;
const find = (id) => document.getElementById(id);

let clock = null;

function choose(scene) {
  body.dataset.show = scene;
  for (const one of document.querySelectorAll("[data-choose]")) one.setAttribute("aria-pressed", String(one.dataset.choose === scene));
  localStorage.setItem(key, scene);
  draw();
}

function showBoxes(on) {
  find("lids").hidden = !on;
  find("boxes").setAttribute("aria-pressed", String(on));
  localStorage.setItem(`${key}.boxes`, on ? "yes" : "no");
}

function draw() {
  if (!clock) return;
  const stopped = clock.status === "held";
  const over = clock.status === "ended" || clock.left <= 0;
  const left = find("left");
  const text = clock.status === "ended" ? "" : onClock(clock.left);
  if (left.textContent !== text) left.textContent = text;
  left.classList.toggle("long", text.length > 5);
  find("held").hidden = !stopped;
  find("over").hidden = !over;
  find("until").hidden = stopped || over;
  find("until").textContent = find("until").dataset.words.replace("#", timeOfDay(clock.end));
}

async function wait() {
  try {
    const now = await (await fetch(`${home}/wall/now`)).json();
    if (now.session) { location.reload(); return; }
  } catch { /* the next look will tell */ }
  setTimeout(wait, WAITING);
}

// The buttons go away while nobody moves, so that only what pupils shall see is on the wall.
let still;
function stir() {
  body.classList.remove("still");
  clearTimeout(still);
  still = setTimeout(() => body.classList.add("still"), IDLE);
}
for (const type of ["pointermove", "pointerdown", "keydown"]) addEventListener(type, stir);
stir();

document.addEventListener("click", (event) => {
  const button = event.target.closest("button");
  if (button?.dataset.choose) choose(button.dataset.choose);
  if (button?.id === "boxes") showBoxes(find("lids").hidden);
  if (button?.id === "whole") whole();
});

async function whole() {
  if (document.fullscreenElement) await document.exitFullscreen();
  else await document.documentElement.requestFullscreen?.();
}
document.addEventListener("fullscreenchange", () => find("whole").setAttribute("aria-pressed", String(Boolean(document.fullscreenElement))));

const known = localStorage.getItem(key);
choose(document.querySelector(`[data-choose="${CSS.escape(known ?? "")}"]`) ? known : body.dataset.show);
showBoxes(localStorage.getItem(`${key}.boxes`) !== "no" && Boolean(session));

if (session) {
  clock = new PlayClock(JSON.parse(find("clock-now").textContent));
  new Wire(`${location.origin}${home}/live/${session}?page=wall`, {
    heard: (told) => { clock.tell(told.clock); putPieces(told.pieces); draw(); },
  });
  setInterval(draw, 250);
  draw();
} else {
  wait();
}
