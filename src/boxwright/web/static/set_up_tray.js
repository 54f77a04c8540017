// A group ticks off what is back in its tray; that stays on this page.

const said = document.getElementById("all-there");
const boxes = [...document.querySelectorAll(".thing input")];

function tell() {
  const left = boxes.filter((box) => !box.checked).length;
  said.textContent = left ? said.dataset.left.replace("{n}", left) : said.dataset.said;
  said.classList.toggle("done", !left);
}
document.addEventListener("change", tell);
tell();
