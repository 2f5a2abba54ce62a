// The page works without this. With it, longer work shows up when it is done, and a lens changes in place.
"use strict";

const still = matchMedia("(prefers-reduced-motion: reduce)");

const swap = async (html, unless) => {
  const fresh = new DOMParser().parseFromString(html, "text/html");
  if (still.matches || !document.startViewTransition) put(fresh, unless);
  else {
    const turn = document.startViewTransition(() => put(fresh, unless));
    turn.ready.catch(() => {}); // another change came before it was shown
    await turn.updateCallbackDone;
  }
};

// Whoever stands on a field keeps it, what is being typed, and the place on the page.
const hold = () => {
  const at = document.activeElement;
  const { id, value } = at ?? {};
  const caret = at?.selectionStart;
  return () => {
    const again = id && document.getElementById(id);
    if (!again) return;
    for (let around = again.closest("details"); around; around = around.parentElement.closest("details")) around.open = true;
    if ("value" in again && again.dataset.path && value !== undefined && again.value !== value) again.value = value;
    again.focus({ preventScroll: true });
    try { if (caret !== null && caret !== undefined) again.setSelectionRange(caret, caret); } catch { /* a field without a caret */ }
  };
};

const put = (fresh, unless) => {
  if (unless?.()) return;
  const held = hold();
  document.title = fresh.title;
  const open = new Set([...document.querySelectorAll("#page details[open] > summary")].map((one) => one.textContent));
  turnPage(document.getElementById("page"), fresh.getElementById("page"));
  for (const one of document.querySelectorAll("#page details > summary")) if (open.has(one.textContent)) one.parentElement.open = true;
  head(document.querySelector("header"), fresh.querySelector("header"));
  for (const [name, value] of Object.entries(fresh.body.dataset)) document.body.dataset[name] = value;
  dress();
  held();
};

// All of the page is new but for the run, which is large and mostly as it was: laying it out anew is what takes longest.
const turnPage = (old, fresh) => {
  const stays = new Map();
  for (const part of [".symbols", ".run"]) {
    const was = old.querySelector(`:scope > ${part}`), is = fresh.querySelector(`:scope > ${part}`);
    if (was && is && alike(was, is)) stays.set(is, was);
  }
  for (const one of [...old.childNodes]) if (![...stays.values()].includes(one)) one.remove();
  let before = null;
  for (const one of [...fresh.childNodes]) {
    const here = stays.get(one) ?? one;
    if (here === one) before ? before.after(one) : old.prepend(one);
    before = here;
  }
};

// Make an element what another is, in place; false where they have too little in common.
const alike = (old, fresh) => {
  if (old.isEqualNode(fresh)) return true;
  const from = [...old.children], to = [...fresh.children];
  if (old.localName !== fresh.localName || words(old) !== words(fresh) || !to.length || from.length !== to.length) return false;
  for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of fresh.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  to.forEach((one, i) => alike(from[i], one) || from[i].replaceWith(one));
  return true;
};
const words = (one) => [...one.childNodes].map((part) => part.nodeType === Node.TEXT_NODE ? part.data.trim() : "").join("|");

// The lenses lead to the container that is chosen now; who stands on one stays on it.
const head = (old, fresh) => {
  if (old.innerHTML === fresh.innerHTML) return;
  const at = [...old.querySelectorAll("a")].indexOf(document.activeElement);
  old.replaceWith(fresh);
  fresh.querySelectorAll("a")[at]?.focus({ preventScroll: true });
};

// `unless` is asked at the last moment: much can be typed while the answer is under way.
const redraw = async (address = location.href, unless = null) => {
  const answer = await fetch(address, { headers: { Accept: "text/html" } });
  if (answer.ok) await swap(await answer.text(), unless);
  return answer.ok;
};

// Where Brimful does not answer the page says so, and goes on by itself when it is back.
const away = (gone) => {
  let said = document.querySelector(".away");
  if (!said && gone) {
    said = Object.assign(document.createElement("p"), { className: "away", role: "alert" });
    document.querySelector("header").after(said);
    said.textContent = "Brimful does not answer: it was stopped, or the network is gone. What stands here is as it was last. "
      + "It goes on by itself when Brimful runs again.";
  }
  if (said && !gone) said.remove();
};

const written = () => [...document.querySelectorAll("#page input:not([type=range], [type=hidden]), #page textarea")]
  .some((field) => field.value !== field.defaultValue || field.checked !== field.defaultChecked)
  || document.querySelector("#page [data-held]") !== null;

// Ask how far the longer work is and whether the plan has changed; redraw when it has, but never over what is being written.
const watch = async () => {
  const { home, doing, digest, day } = document.body.dataset;
  if (!document.hidden) {
    try {
      const answer = await fetch(`${home}work`);
      if (answer.status === 401) location.reload();
      const now = answer.ok ? await answer.json() : { doing, digest, day };
      away(false);
      if ((now.doing !== doing || now.digest !== digest || (day && now.day !== day)) && !written()) await redraw(location.href, written);
    } catch { away(true); }
  }
  setTimeout(watch, document.body.dataset.doing ? 400 : 2000);
};
watch();

// A container touched: change in place, keep where the reader is.
document.addEventListener("click", async (event) => {
  const link = event.target.closest(".stand, .ground");
  if (!link || event.metaKey || event.ctrlKey || event.button) return;
  event.preventDefault();
  const drawn = await redraw(link.href).catch(() => null);
  if (drawn === null) away(true);
  else if (drawn) {
    history.pushState({}, "", link.href);
    document.querySelector(`#page [href="${CSS.escape(link.getAttribute("href"))}"]`)?.focus({ preventScroll: true });
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
  let waiting;
  const follow = async () => {
    const to = links[input.value].href;
    if (!(await redraw(to))) { location.href = to; return; }
    history.replaceState({}, "", to);
    document.querySelector(".weeks input")?.focus({ preventScroll: true });
  };
  input.addEventListener("change", () => { clearTimeout(waiting); waiting = setTimeout(follow, 250); });
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

// A table that is wider than the page can be moved by keys; one that fits is passed over.
const dress = () => {
  document.querySelectorAll(".weeks").forEach(slider);
  for (const wide of document.querySelectorAll(".wide")) wide.tabIndex = wide.scrollWidth > wide.clientWidth ? 0 : -1;
  document.dispatchEvent(new Event("dressed"));
};
dress();
