// The planted mistake: building and checking takes a moment, so it is fetched after the page.

import { piece } from "./studio.js";

async function look() {
  const home = document.getElementById("found");
  if (!home) return;
  const html = await piece(home.dataset.from);
  if (html === null) home.replaceChildren(document.getElementById("failed").content.cloneNode(true));
  else home.innerHTML = html;
  home.setAttribute("aria-busy", "false");
}

document.addEventListener("page:shown", look);
look();
