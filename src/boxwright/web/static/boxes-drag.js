// Dragging by pointer: with a mouse at once, by touch after a short press, so that the page can
// still be scrolled. What cannot be put somewhere is refused with the reason.

const FAR = 6; // pixels that a hand moves without meaning to
const PRESS = 300; // milliseconds

/** Tell why `item` cannot be put at `target`; nothing where it can. */
export function objection(item, target) {
  if (!target || target === item.parentElement.closest("[data-drop]")) return "here";
  if (item.contains(target)) return "within";
  const size = item.dataset.size;
  if (target.dataset.holds.split(" ").includes(size)) return null;
  return size === "lock" ? "locks" : "cannot";
}

export function dragging({ itemOf, targetOf, pick, refuse, drop }) {
  let held = null;

  function begin(event) {
    const item = itemOf(event.target);
    if (!item || event.button !== 0) return;
    end();
    held = { item, x: event.clientX, y: event.clientY, id: event.pointerId, touch: event.pointerType === "touch", going: false };
    if (held.touch) held.timer = setTimeout(() => lift(event), PRESS);
    else event.preventDefault(); // no text is marked meanwhile
  }

  function lift(event) {
    if (!held || held.going) return;
    held.going = true;
    const ghost = document.createElement("div");
    ghost.className = "ghost";
    ghost.setAttribute("aria-hidden", "true");
    ghost.textContent = held.item.getAttribute("aria-label");
    document.body.append(ghost);
    held.ghost = ghost;
    held.item.classList.add("lifted");
    follow(event);
  }

  function follow(event) {
    held.ghost.style.setProperty("left", `${event.clientX + 12}px`);
    held.ghost.style.setProperty("top", `${event.clientY + 12}px`);
    const target = targetOf(document.elementFromPoint(event.clientX, event.clientY));
    held.target?.classList.remove("can", "cannot");
    held.target = target;
    const why = objection(held.item, target);
    if (target && why !== "here") target.classList.add(why ? "cannot" : "can");
    const edge = event.clientY < 60 ? -12 : event.clientY > innerHeight - 60 ? 12 : 0;
    if (edge) scrollBy(0, edge);
  }

  function moved(event) {
    if (!held || event.pointerId !== held.id) return;
    const far = Math.hypot(event.clientX - held.x, event.clientY - held.y) > FAR;
    if (!held.going && far) {
      if (held.touch) return end();
      lift(event);
    }
    if (held?.going) follow(event);
  }

  function let_go(event) {
    if (!held || event.pointerId !== held.id) return;
    const { item, target, going } = held;
    end();
    if (!going) return;
    swallowClick();
    const why = objection(item, target);
    if (why === null) drop(item, target);
    else if (why === "here") pick(item);
    else { pick(item); refuse(why); }
  }

  function end() {
    if (!held) return;
    clearTimeout(held.timer);
    held.ghost?.remove();
    held.item.classList.remove("lifted");
    held.target?.classList.remove("can", "cannot");
    held = null;
  }

  /** The click that follows letting go belongs to the drag. */
  function swallowClick() {
    const stop = (event) => { event.stopPropagation(); event.preventDefault(); };
    addEventListener("click", stop, { capture: true, once: true });
    setTimeout(() => removeEventListener("click", stop, { capture: true }), 0);
  }

  document.addEventListener("pointerdown", begin);
  document.addEventListener("pointermove", moved);
  document.addEventListener("pointerup", let_go);
  document.addEventListener("pointercancel", end);
  document.addEventListener("touchmove", (event) => { if (held?.going) event.preventDefault(); }, { passive: false });
  document.addEventListener("contextmenu", (event) => { if (held?.touch) event.preventDefault(); });
  document.addEventListener("keydown", (event) => { if (event.key === "Escape") end(); });
}
