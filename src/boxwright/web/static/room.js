// The plan: a place is moved by dragging its point, or by the arrow keys while it has the focus.
// Enter, or leaving the point, keeps where it stands; Escape puts it back.

import { perform } from "./studio.js";
import { sendForms } from "./fields.js";

const STEP_MM = 100;
const BIG_STEP_MM = 500;
const SNAP_MM = 50;
const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

const listed = (values) => values.flatMap((one) => one.split(/[\s,]+/)).filter(Boolean);
sendForms({ facilities: listed, tags: (text) => listed([text]), say: (text) => text.trim().toUpperCase() });

const planOf = () => {
  const plan = document.getElementById("plan");
  return { plan, length: Number(plan.dataset.length), breadth: Number(plan.dataset.breadth) };
};
const limited = (value, most) => Math.min(Math.max(value, 0), most);
const stands = (mark) => [Number(mark.dataset.x), Number(mark.dataset.y)];
const shown = (mark) => mark.now ?? stands(mark);

/** Show a point somewhere else, kept nowhere yet. */
function place(mark, x, y) {
  const { length, breadth } = planOf();
  mark.now = [limited(x, length), limited(y, breadth)];
  mark.setAttribute("x", `${(100 * mark.now[0]) / length}%`);
  mark.setAttribute("y", `${100 - (100 * mark.now[1]) / breadth}%`);
}

function keep(mark) {
  const [x, y] = shown(mark);
  const [oldX, oldY] = stands(mark);
  mark.now = null;
  if (x === oldX && y === oldY) return;
  [mark.dataset.x, mark.dataset.y] = [x, y];
  const focus = document.activeElement === mark ? mark.id : null;
  perform("place.move", { place: mark.dataset.place, at_mm: [x, y] }, { home: document.getElementById("page"), focus });
}

document.addEventListener("keydown", (event) => {
  const mark = event.target.closest?.(".mark");
  if (!mark) return;
  const step = STEPS[event.key];
  if (step) {
    event.preventDefault();
    const [x, y] = shown(mark);
    const far = event.shiftKey ? BIG_STEP_MM : STEP_MM;
    place(mark, x + step[0] * far, y + step[1] * far);
  } else if (event.key === "Enter" || event.key === " ") {
    event.preventDefault();
    keep(mark);
  } else if (event.key === "Escape") {
    place(mark, ...stands(mark));
  }
});

document.addEventListener("focusout", (event) => {
  const mark = event.target.closest?.(".mark");
  if (mark?.now && mark.isConnected) keep(mark);
});

document.addEventListener("pointerdown", (event) => {
  const mark = event.target.closest?.(".mark");
  if (!mark || event.button !== 0) return;
  event.preventDefault();
  mark.focus();
  mark.setPointerCapture(event.pointerId);
  const { plan, length, breadth } = planOf();
  const area = plan.getBoundingClientRect();
  const grip = [event.clientX, event.clientY];
  const start = shown(mark);
  const drag = (moved) => {
    const x = start[0] + ((moved.clientX - grip[0]) / area.width) * length;
    const y = start[1] - ((moved.clientY - grip[1]) / area.height) * breadth;
    place(mark, snapped(x), snapped(y));
  };
  const end = (ended) => {
    mark.removeEventListener("pointermove", drag);
    if (ended.type === "pointerup") keep(mark);
    else place(mark, ...stands(mark));
  };
  mark.addEventListener("pointermove", drag);
  mark.addEventListener("pointerup", end, { once: true });
  mark.addEventListener("pointercancel", end, { once: true });
});

const snapped = (value) => Math.round(value / SNAP_MM) * SNAP_MM;
