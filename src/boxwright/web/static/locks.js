// Times as the clock on the wall here shows them; codes that were tried on a lost lock stay marked.

const find = (id) => document.getElementById(id);

function tellTimes() {
  const words = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeStyle: "short" });
  for (const one of document.querySelectorAll("time[datetime]")) one.textContent = words.format(new Date(one.dateTime));
}

const key = () => `tried:${find("tries").dataset.lost}`;

function tried() {
  try { return new Set(JSON.parse(localStorage.getItem(key()) ?? "[]")); } catch { return new Set(); }
}

function markTried() {
  if (!find("tries")) return;
  const done = tried();
  for (const box of find("tries").querySelectorAll("input")) box.checked = done.has(box.value);
}

// The code that was tried last is the likeliest to have opened it.
document.addEventListener("change", (event) => {
  const box = event.target.closest("#tries input");
  if (!box) return;
  const done = tried();
  if (box.checked) done.add(box.value);
  else done.delete(box.value);
  try { localStorage.setItem(key(), JSON.stringify([...done])); } catch { /* marked on this page alone */ }
  if (box.checked) find("found").value = box.value;
});

function begin() {
  tellTimes();
  markTried();
}
document.addEventListener("page:shown", begin);
begin();
