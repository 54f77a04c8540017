// A table in cells. Nothing is kept before the button is pressed; what cannot be kept is told
// at its row. Rows pasted into a cell spread over the cells from there on.

import { complain, perform, post } from "./studio.js";

const MORE_ROWS = 200;
const FIRST_LINE = 2; // of a file whose first line names the columns

const grid = () => document.getElementById("grid");
const rowsOf = () => [...grid().tBodies[0].rows].filter((row) => !row.classList.contains("why"));
const cellsOf = (row) => [...row.querySelectorAll("textarea")];
const heads = () => [...grid().tHead.querySelectorAll("input")];
let rest = [];
let touched = false;

function touch() {
  touched = true;
  document.getElementById("unsaved").hidden = false;
}

/** Number a row, and say at its button which one that takes out. */
function number(row, at) {
  row.cells[0].textContent = at + 1;
  name(row.querySelector(".drops-row"), document.getElementById("new-row").dataset.drops.replace("{n}", at + 1));
}

function nameColumn(head) {
  const drops = document.getElementById("new-column").dataset.drops;
  name(head.closest("th").querySelector(".drops-column"), drops.replace("{column}", () => head.value));
}

function name(button, text) {
  button.setAttribute("aria-label", text);
  button.title = text;
}

// Rows and columns.

function cell(label, text) {
  const td = document.createElement("td");
  const area = document.createElement("textarea");
  area.rows = 1;
  area.value = text;
  area.setAttribute("aria-label", label);
  td.append(area);
  return td;
}

function addRow(cells = []) {
  const row = document.getElementById("new-row").content.firstElementChild.cloneNode(true);
  heads().forEach((head, at) => row.lastElementChild.before(cell(head.value, cells[at] ?? "")));
  grid().tBodies[0].append(row);
  number(row, rowsOf().length - 1);
  return row;
}

function showRest(count = MORE_ROWS) {
  for (const cells of rest.splice(0, count)) addRow(cells);
  if (!rest.length) document.querySelector(".more")?.remove();
}

function addColumn() {
  const head = document.getElementById("new-column").content.firstElementChild.cloneNode(true);
  grid().tHead.rows[0].lastElementChild.before(head);
  for (const row of rowsOf()) row.lastElementChild.before(cell("", ""));
  rest = rest.map((cells) => [...cells, ""]);
  nameColumn(head.querySelector("input"));
  head.querySelector("input").focus();
}

function dropColumn(button) {
  const at = heads().indexOf(button.closest("th").querySelector("input"));
  if (heads().length === 1) return;
  button.closest("th").remove();
  for (const row of rowsOf()) cellsOf(row)[at].closest("td").remove();
  rest = rest.map((cells) => cells.filter((_, one) => one !== at));
}

function dropRow(row) {
  const why = row.nextElementSibling;
  if (why?.classList.contains("why")) why.remove();
  const next = row.nextElementSibling ?? row.previousElementSibling;
  row.remove();
  rowsOf().forEach(number);
  (next?.querySelector("textarea") ?? document.getElementById("add-row")).focus();
}

// Keeping.

const isBlank = (cells) => cells.every((one) => one.trim() === "");

/** Leave out columns at the end that have neither a name nor a cell with anything in it. */
function trimmed(rows) {
  let width = rows[0].length;
  while (width > 1 && rows.every((cells) => cells[width - 1].trim() === "")) width -= 1;
  return rows.map((cells) => cells.slice(0, width));
}

async function keep() {
  const shown = rowsOf().filter((row) => !isBlank(cellsOf(row).map((one) => one.value)));
  const lines = shown.map((row) => cellsOf(row).map((one) => one.value.replace(/\s*\n\s*/g, " ")));
  const rows = trimmed([heads().map((one) => one.value), ...lines, ...rest.filter((one) => !isBlank(one))]);
  clearMarks();
  touched = false;
  const home = document.getElementById("table-home");
  const answer = await perform("content.put", { name: grid().dataset.name, rows }, { home, focus: "keep-table" });
  if (answer.ok || answer.status === 412) return;
  touch();
  const placed = (answer.data.problems ?? []).filter((one) => typeof one.path?.[0] === "number");
  for (const one of placed) mark(shown[one.path[0] - FIRST_LINE], one);
}

function clearMarks() {
  grid().querySelectorAll(".why").forEach((one) => one.remove());
  grid().querySelectorAll(".bad").forEach((one) => one.classList.remove("bad"));
}

/** Tell what is wrong with a row below it. */
function mark(row, problem) {
  if (!row) return;
  row.classList.add("bad");
  const why = document.createElement("tr");
  why.className = "why";
  const told = document.createElement("td");
  told.colSpan = heads().length + 1;
  const line = document.createElement("p");
  const what = document.createElement("strong");
  what.textContent = problem.what;
  line.append(what, ` ${problem.remedy}`);
  told.append(line);
  why.append(document.createElement("td"), told);
  row.after(why);
}

/** What the clues that use the table find wrong is worked out after the page is shown. */
async function askMarks() {
  if (!grid()) return;
  const answer = await fetch(grid().dataset.marks).catch(() => null);
  if (!answer?.ok || touched || !grid()) return;
  const known = new Set([...grid().querySelectorAll(".why strong")].map((one) => one.textContent));
  for (const one of (await answer.json()).problems) {
    if (!known.has(one.what)) mark(grid().querySelector(`tr[data-line="${Number(one.line)}"]`), one);
  }
}

// Pasting.

/** Put rows of cells into the grid from one cell on, making rows as need be. */
function spread(area, rows) {
  const row = area.closest("tr");
  const column = cellsOf(row).indexOf(area);
  let at = rowsOf().indexOf(row);
  for (const cells of rows) {
    if (at === rowsOf().length && rest.length) showRest();
    const target = rowsOf()[at] ?? addRow();
    const areas = cellsOf(target);
    cells.forEach((text, by) => { if (areas[column + by]) areas[column + by].value = text; });
    at += 1;
  }
  touch();
}

document.addEventListener("paste", (event) => {
  if (!event.target.matches?.("#grid tbody textarea")) return;
  const text = event.clipboardData.getData("text/plain");
  if (!text.includes("\t") && !text.trim().includes("\n")) return;
  event.preventDefault();
  const rows = text.replace(/\r\n?/g, "\n").replace(/\n$/, "").split("\n").map((line) => line.split("\t"));
  spread(event.target, rows);
});

document.addEventListener("submit", async (event) => {
  if (event.target.id !== "paste-rows") return;
  event.preventDefault();
  const form = event.target;
  const columns = heads().map((one) => one.value.trim().toLowerCase());
  const answer = await post(`${document.body.dataset.game}/content/pasted`, { text: form.elements.text.value, columns });
  if (!answer.ok) { complain(form, answer.data.problems ?? []); return; }
  showRest(rest.length);
  answer.data.rows.forEach((cells) => addRow(cells));
  form.reset();
  touch();
  grid().tBodies[0].lastElementChild?.scrollIntoView({ block: "nearest" });
});

// What hands do.

document.addEventListener("input", (event) => {
  if (!event.target.closest("#grid")) return;
  if (event.target.closest("thead")) nameColumn(event.target);
  touch();
});

document.addEventListener("click", (event) => {
  const button = event.target.closest("button");
  if (!button || !grid()) return;
  if (button.id === "keep-table") keep();
  else if (button.id === "show-rest") showRest();
  else if (button.id === "add-row") { showRest(rest.length); addRow().querySelector("textarea").focus(); touch(); }
  else if (button.id === "add-column") { addColumn(); touch(); }
  else if (button.classList.contains("drops-row")) { dropRow(button.closest("tr")); touch(); }
  else if (button.classList.contains("drops-column")) { dropColumn(button); touch(); }
});

// Enter goes down a column, with Shift up; below the last row a new one begins.
document.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || event.isComposing || !event.target.matches("#grid tbody textarea")) return;
  event.preventDefault();
  const row = event.target.closest("tr");
  const column = cellsOf(row).indexOf(event.target);
  const at = rowsOf().indexOf(row) + (event.shiftKey ? -1 : 1);
  if (at < 0) { heads()[column].focus(); return; }
  if (at === rowsOf().length && rest.length) showRest();
  cellsOf(rowsOf()[at] ?? addRow())[column].focus();
});

addEventListener("beforeunload", (event) => { if (touched) event.preventDefault(); });

function begin() {
  touched = false;
  const left = document.getElementById("rest");
  rest = left ? JSON.parse(left.textContent) : [];
  askMarks();
}

document.addEventListener("page:shown", begin);
begin();
