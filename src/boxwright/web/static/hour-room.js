// Tables as they stand in the room: laid out once by hand or by keys, and kept in this browser.

import { tell } from "./studio.js";

const COLUMNS = 4;
const MOVES = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

export class RoomPlan {
  constructor(tiles, button, words) {
    Object.assign(this, { tiles, button, words });
    this.key = `boxwright.room.${document.getElementById("play").dataset.room}`;
    this.columns = tiles.children.length > 12 ? 6 : COLUMNS;
    this.places = this.kept();
    this.draw();
    button.addEventListener("click", () => this.lay(!this.laying));
    tiles.addEventListener("keydown", (event) => this.moved(event));
    tiles.addEventListener("pointerdown", (event) => this.grabbed(event));
  }

  get laying() { return this.tiles.classList.contains("laying"); }

  /** Return where each table stands: as kept, else row by row; no two in one place. */
  kept() {
    let known = {};
    try { known = JSON.parse(localStorage.getItem(this.key)) ?? {}; } catch { /* laid out anew */ }
    const places = new Map();
    const taken = new Set();
    const put = (group, column, row) => {
      if (!Number.isInteger(column) || !Number.isInteger(row) || column < 0 || column >= this.columns || row < 0 || row > 40) return false;
      if (taken.has(`${column} ${row}`)) return false;
      taken.add(`${column} ${row}`);
      places.set(group, [column, row]);
      return true;
    };
    const groups = [...this.tiles.children].map((tile) => tile.dataset.group);
    for (const group of groups) put(group, ...(Array.isArray(known[group]) ? known[group] : []));
    let at = 0;
    for (const group of groups) {
      while (!places.has(group)) {
        put(group, at % this.columns, Math.floor(at / this.columns));
        at += 1;
      }
    }
    return places;
  }

  draw() {
    const rows = Math.max(...[...this.places.values()].map(([, row]) => row), 0) + 1;
    const wide = this.laying ? this.columns : Math.max(...[...this.places.values()].map(([column]) => column)) + 1;
    this.tiles.style.setProperty("--columns", wide);
    this.tiles.style.setProperty("--rows", rows + (this.laying ? 1 : 0));
    const inOrder = [...this.places].sort(([, a], [, b]) => a[1] - b[1] || a[0] - b[0]);
    for (const [n, [group, [column, row]]] of inOrder.entries()) {
      const tile = this.tile(group);
      tile.style.setProperty("--column", column + 1);
      tile.style.setProperty("--row", row + 1);
      if (this.tiles.children[n] !== tile && !this.tiles.contains(document.activeElement)) this.tiles.insertBefore(tile, this.tiles.children[n]);
    }
  }

  tile(group) { return document.getElementById(`tile-${group}`); }

  lay(on) {
    this.tiles.classList.toggle("laying", on);
    this.button.setAttribute("aria-pressed", String(on));
    document.getElementById("lay-out-what").hidden = !on;
    for (const tile of this.tiles.children) {
      if (on) { tile.tabIndex = 0; tile.setAttribute("aria-label", tile.querySelector(".tile-name").textContent); }
      else { tile.removeAttribute("tabindex"); tile.removeAttribute("aria-label"); }
    }
    this.draw();
  }

  /** Put a table into a place; whoever stood there takes the place that it left. */
  put(group, column, row) {
    if (column < 0 || column >= this.columns || row < 0 || row > 40) return;
    const left = this.places.get(group);
    for (const [other, [c, r]] of this.places) if (c === column && r === row && other !== group) this.places.set(other, left);
    this.places.set(group, [column, row]);
    localStorage.setItem(this.key, JSON.stringify(Object.fromEntries(this.places)));
    this.draw();
    tell(this.words.moved.replace("#", row + 1).replace("*", column + 1));
  }

  moved(event) {
    const tile = event.target.closest(".tile");
    const step = MOVES[event.key];
    if (!this.laying || !step || event.target !== tile) return;
    event.preventDefault();
    const [column, row] = this.places.get(tile.dataset.group);
    this.put(tile.dataset.group, column + step[0], row + step[1]);
    tile.focus();
  }

  grabbed(event) {
    const tile = event.target.closest(".tile");
    if (!this.laying || !tile || event.button !== 0) return;
    event.preventDefault();
    tile.focus();
    tile.setPointerCapture(event.pointerId);
    tile.classList.add("held");
    const from = [event.clientX, event.clientY];
    const move = (one) => tile.style.setProperty("translate", `${one.clientX - from[0]}px ${one.clientY - from[1]}px`);
    const drop = (one) => {
      tile.removeEventListener("pointermove", move);
      tile.removeEventListener("pointerup", drop);
      tile.removeEventListener("pointercancel", drop);
      tile.classList.remove("held");
      tile.style.removeProperty("translate");
      if (one.type === "pointerup") this.put(tile.dataset.group, ...this.placeAt(one.clientX, one.clientY));
    };
    tile.addEventListener("pointermove", move);
    tile.addEventListener("pointerup", drop);
    tile.addEventListener("pointercancel", drop);
  }

  placeAt(x, y) {
    const box = this.tiles.getBoundingClientRect();
    const rows = Number(this.tiles.style.getPropertyValue("--rows"));
    const column = Math.floor(((x - box.left) / box.width) * this.columns);
    const row = Math.floor(((y - box.top) / box.height) * rows);
    return [Math.min(this.columns - 1, Math.max(0, column)), Math.min(rows - 1, Math.max(0, row))];
  }
}
