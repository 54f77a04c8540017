// The hour: taps go up, pieces come down, the clock goes on. Nothing here decides anything: what a
// tap means, and what follows from it, is the desk's business.

import { PlayClock, Wire, onClock, putPieces, timeOfDay } from "./hour-live.js";
import { RoomPlan } from "./hour-room.js";
import { AtTable } from "./hour-table.js";
import { Taps } from "./hour-taps.js";
import { piece, tell } from "./studio.js";

const MINUTE = 60000;
const [SOON, HELP] = [2500, 20000];
const LONG = 20 * MINUTE; // a line as long as its rail
let asking = 0; // the timer of the next question what would help
const play = document.getElementById("play");
const words = play?.dataset;

// Before play: when it would end if it began now.

function drawIfNow() {
  const times = document.getElementById("if-now");
  if (!times) return;
  const minutes = Number(document.getElementById("minutes").value) || 0;
  const now = Date.now();
  const end = now + minutes * MINUTE;
  const tidy = end + 1000 * Number(times.dataset.debrief);
  const at = { end, tidy, bell: tidy + 1000 * Number(times.dataset.tidy) };
  for (const one of times.querySelectorAll("[data-time]")) one.textContent = timeOfDay(at[one.dataset.time]);
}

if (!play) {
  document.addEventListener("input", drawIfNow);
  document.addEventListener("page:shown", drawIfNow);
  setInterval(drawIfNow, 5000);
  drawIfNow();
} else {
  begin();
}

function begin() {
  const { home, session } = play.dataset;
  const clock = new PlayClock(JSON.parse(document.getElementById("clock-now").textContent));
  let refocus = null;

  const taps = new Taps(`${home}/taps/${session}`, session, {
    answered: (one) => {
      const said = one.note ?? (one.problems ?? []).map((problem) => `${problem.what} ${problem.remedy}`).join(" ");
      if (said) tell(said);
    },
    waiting: (count) => {
      document.getElementById("unsent").textContent = count === 0 ? "" : count === 1 ? words.unsentOne : words.unsent.replace("#", count);
      drawLine();
    },
    gone: () => location.reload(),
  });
  const table = new AtTable(document.getElementById("at-table"), taps);
  new RoomPlan(document.getElementById("tiles"), document.getElementById("lay-out"), words);

  const wire = new Wire(`${location.origin}${home}/live/${session}?page=hour`, {
    heard: (told, whole) => {
      document.getElementById("line-cut").hidden = true;
      drawLine();
      clock.tell(told.clock);
      if (told.closed) { taps.quiet().then(() => { location.href = words.after; }); return; }
      const lost = putPieces(told.pieces);
      if (lost && refocus) document.getElementById(refocus)?.focus({ preventScroll: true });
      refocus = null;
      if (whole || Object.keys(told.pieces).length) table.refresh(); // not all that is noted of a table shows on its tile
      draw();
      if (!whole) askSoon();
      if (whole) taps.send();
    },
    cut: () => { document.getElementById("line-cut").hidden = false; drawLine(); },
  });

  function drawLine() {
    const line = document.getElementById("line");
    line.hidden = document.getElementById("line-cut").hidden && !document.getElementById("unsent").textContent;
  }

  function draw() {
    drawClock(clock);
    drawSince(clock);
  }
  setInterval(draw, 1000);
  draw();

  document.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button || button.getAttribute("aria-disabled")) return;
    if (button.dataset.look) { table.show(button.dataset.look, button); return; }
    const notes = notesOf(button);
    if (!notes) return;
    refocus = button.dataset.focus ?? null;
    rest(button);
    for (const one of notes) taps.tap(one.type, one.data);
  });

  document.addEventListener("submit", (event) => {
    const type = event.target.dataset.tapForm;
    if (!type) return;
    event.preventDefault();
    const written = [...event.target.elements].filter((one) => one.id).map(({ id, value }) => ({ id, value }));
    const note = Object.fromEntries(new FormData(event.target));
    event.target.reset(); // from here on the tap is kept, whatever becomes of the form
    taps.tap(type, note).then((one) => {
      if (one.problems?.length) writeAgain(written);
      else if (type === "mishap.noted") {
        table.giveWay(); // what helps stands in the room
        document.getElementById("mishaps").scrollIntoView({ block: "nearest" });
      }
    });
  });

  // Ctrl+Z takes back what was tapped last; the game itself is not changed from here.
  addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
    if (event.target.closest("input, textarea, select")) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    document.querySelector(event.shiftKey ? "#again" : "#undo-line [data-tap]")?.click();
  }, true);
  addEventListener("pagehide", () => wire.socket?.close());
  askForHelp();
}

/** Ask once what was tapped has come to rest: the studio plays every table's game on for it. */
function askSoon() {
  clearTimeout(asking);
  asking = setTimeout(askForHelp, SOON);
}

/** Ask what would help now: soon after something happened, and else from time to time. */
async function askForHelp() {
  clearTimeout(asking);
  const home = document.getElementById("help-now");
  const html = await piece(home.dataset.from);
  if (html !== null && html !== home.dataset.shown && !home.contains(document.activeElement)) {
    home.innerHTML = html;
    home.dataset.shown = html;
  }
  clearTimeout(asking);
  asking = setTimeout(askForHelp, HELP);
}

/** Return what a button notes: one thing, several at once, or nothing. */
function notesOf(button) {
  if (button.dataset.taps) return JSON.parse(button.dataset.taps);
  if (button.dataset.close) return JSON.parse(button.dataset.close);
  if (button.dataset.tap) return [{ type: button.dataset.tap, data: JSON.parse(button.dataset.args ?? "{}") }];
  return null;
}

/** Write again what was refused, where nothing else was written since. */
function writeAgain(written) {
  for (const { id, value } of written) {
    const field = document.getElementById(id);
    if (field && (field.tagName === "SELECT" || !field.value)) field.value = value;
  }
}

/** A second click of a hasty hand is not a second tap. */
function rest(button) {
  button.setAttribute("aria-disabled", "true");
  setTimeout(() => button.removeAttribute("aria-disabled"), 700);
}

function drawClock(clock) {
  const left = clock.left;
  const running = clock.status === "running" || clock.status === "held";
  const minutes = Math.ceil(left / MINUTE);
  const text = !running ? "" : left < -MINUTE ? words.over.replace("#", Math.floor(-left / MINUTE)) : left < 2 * MINUTE ? words.leftShort.replace("#", onClock(left)) : words.left.replace("#", minutes);
  setText(document.getElementById("left"), text);
  setText(document.getElementById("status"), left < -MINUTE && clock.status === "running" ? "" : document.querySelector(`[data-status="${clock.status}"]`).content.textContent);
  const at = { end: clock.end, tidy: clock.tidy, bell: clock.bell };
  for (const one of document.querySelectorAll(".clock [data-time]")) setText(one, timeOfDay(at[one.dataset.time]));
  document.getElementById("late").hidden = clock.end <= clock.tidy + 30000;
  drawDay(clock);
}

/** Draw the lesson to scale: play, talk, tidying up, and where we are. */
function drawDay(clock) {
  const last = Math.max(clock.bell, clock.end, clock.now);
  const scale = 1000 / Math.max(last - clock.start, 1);
  const at = (ms) => Math.min(1000, Math.max(0, (ms - clock.start) * scale));
  const parts = { play: [clock.start, clock.end], talk: [clock.end, clock.tidy], tidy: [clock.tidy, clock.bell] };
  for (const [name, [from, to]] of Object.entries(parts)) {
    const rect = document.querySelector(`#day .${name}`);
    rect.setAttribute("x", at(from));
    rect.setAttribute("width", Math.max(0, at(to) - at(from)));
  }
  const now = at(clock.now);
  document.querySelector("#day .now").setAttribute("d", `M${now} 0 V22`);
}

function drawSince(clock) {
  for (const one of document.querySelectorAll("[data-since]")) {
    const from = Number(one.dataset.since);
    const passed = Math.max(0, clock.played - from);
    const minutes = Math.floor(passed / MINUTE);
    const first = one.dataset.first !== undefined;
    const said = minutes === 0 ? (first ? words.sinceBegun : words.sinceNow) : (first ? words.sinceStart : words.sinceFind).replace("#", minutes);
    setText(one.querySelector(".since-words"), clock.status === "not-started" ? "" : said);
    one.querySelector(".gone").setAttribute("d", `M0 3 H${Math.min(100, (100 * passed) / LONG)}`);
  }
}

function setText(element, text) {
  if (element && element.textContent !== text) element.textContent = text;
}
