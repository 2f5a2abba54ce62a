// The page works without this. With it, longer work shows up when it is done, and a lens changes in place.
"use strict";

const swap = (html) => {
  const fresh = new DOMParser().parseFromString(html, "text/html");
  document.title = fresh.title;
  document.getElementById("page").replaceWith(fresh.getElementById("page"));
  for (const [name, value] of Object.entries(fresh.body.dataset)) document.body.dataset[name] = value;
};

const redraw = async (address = location.href) => {
  const answer = await fetch(address, { headers: { Accept: "text/html" } });
  if (answer.ok) swap(await answer.text());
  return answer.ok;
};

// While longer work runs, ask how far it is, and redraw when it has moved on.
const watch = async () => {
  if (document.body.dataset.doing) {
    try {
      const { doing } = await (await fetch(`${document.body.dataset.home}work`)).json();
      if (doing !== document.body.dataset.doing) await redraw();
    } catch { /* the server is away; try again */ }
  }
  setTimeout(watch, 400);
};
watch();

// A container touched: change in place, keep where the reader is.
document.addEventListener("click", async (event) => {
  const link = event.target.closest(".stand, .ground");
  if (!link || event.metaKey || event.ctrlKey || event.button) return;
  event.preventDefault();
  if (await redraw(link.href)) {
    history.pushState({}, "", link.href);
    document.querySelector(`[href="${CSS.escape(link.getAttribute("href"))}"]`)?.focus({ preventScroll: true });
  } else location.href = link.href;
});
addEventListener("popstate", () => redraw());
