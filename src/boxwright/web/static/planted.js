// The planted mistake: building and checking takes a moment, so it is fetched after the page.

async function look() {
  const home = document.getElementById("found");
  if (!home) return;
  try {
    const answer = await fetch(home.dataset.from, { headers: { Accept: "text/html" } });
    if (!answer.ok) throw new Error(String(answer.status));
    // Our own template, in which every text of the game's is escaped.
    home.innerHTML = await answer.text();
  } catch {
    home.replaceChildren(document.getElementById("failed").content.cloneNode(true));
  }
  home.setAttribute("aria-busy", "false");
}

document.addEventListener("page:shown", look);
look();
