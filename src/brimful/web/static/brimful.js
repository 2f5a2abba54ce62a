// The page works without this. With it, longer work shows up when it is done, and a lens changes in place.
"use strict";

const still = matchMedia("(prefers-reduced-motion: reduce)");

const swap = async (html) => {
  const fresh = new DOMParser().parseFromString(html, "text/html");
  if (still.matches || !document.startViewTransition) put(fresh);
  else await document.startViewTransition(() => put(fresh)).updateCallbackDone;
};

const put = (fresh) => {
  document.title = fresh.title;
  document.getElementById("page").replaceWith(fresh.getElementById("page"));
  for (const [name, value] of Object.entries(fresh.body.dataset)) document.body.dataset[name] = value;
  dress();
};

const redraw = async (address = location.href) => {
  const answer = await fetch(address, { headers: { Accept: "text/html" } });
  if (answer.ok) await swap(await answer.text());
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

// The weeks become a slider: the run grows while it is dragged, the rest of the page follows when it is let go.
const slider = (nav) => {
  const links = [...nav.querySelectorAll("a")];
  const now = Math.max(0, links.findIndex((link) => link.hasAttribute("aria-current")));
  const label = document.createElement("label");
  const input = Object.assign(document.createElement("input"), { type: "range", min: 0, max: links.length - 1, value: now });
  const said = document.createElement("output");
  const say = () => {
    said.textContent = `${links[input.value].textContent} weeks after planting`;
    input.setAttribute("aria-valuetext", said.textContent);
  };
  label.append("Grow", input, said);
  say();
  input.addEventListener("input", () => { say(); grow(links[input.value].textContent.padStart(2, "0")); });
  input.addEventListener("change", async () => {
    const to = links[input.value].href;
    if (!(await redraw(to))) { location.href = to; return; }
    history.replaceState({}, "", to);
    document.querySelector(".weeks input")?.focus({ preventScroll: true });
  });
  nav.replaceChildren(label);
};

const grow = (week) => {
  for (const one of document.querySelectorAll(".drawing source, .drawing img")) {
    for (const name of ["src", "srcset"]) {
      const at = one.getAttribute(name);
      if (at?.includes("run-week-")) one.setAttribute(name, at.replace(/run-week-\d\d/, `run-week-${week}`));
    }
  }
};

const dress = () => document.querySelectorAll(".weeks").forEach(slider);
dress();
