// Changing the plan: each field is checked while it is typed and saved when it is left; the page redraws in place.
// Without this the same forms are sent by their buttons.
"use strict";

const fieldOf = (event) => event.target.closest?.(".fields [data-path]");
let sending = Promise.resolve();

// What is wrong with a value, or how it is understood, beside its field.
let asked;
document.addEventListener("input", (event) => {
  const field = fieldOf(event);
  if (!field) return;
  clearTimeout(asked);
  asked = setTimeout(() => check(field), 150);
});

const check = async (field) => {
  const typed = field.value;
  const query = new URLSearchParams({ path: field.dataset.path, value: typed });
  const answer = await fetch(`${document.body.dataset.home}check-field?${query}`).catch(() => null);
  const said = field.closest(".box")?.querySelector(".live");
  if (!answer?.ok || !said || field.value !== typed) return;
  const { understood, problem } = await answer.json();
  const words = document.createElement("span");
  words.textContent = problem ? `${problem[0].toUpperCase()}${problem.slice(1)}${/[.?]$/.test(problem) ? "" : "."}` : understood && `${understood}.`;
  if (problem) words.className = "said error";
  said.replaceChildren(words);
};

// Send a form, or one field of it, and redraw with what comes back; edits go one after another.
const send = (form, only, button) => {
  clearTimeout(asked); // the answer says what is wrong
  sending = sending.then(() => sent(form, only, button)).catch(() => away(true));
  return sending;
};

// A field that stands as it was shown is not sent: the plan may have moved on meanwhile.
const altered = (field) => field.options
  ? [...field.options].some((option) => option.selected !== option.defaultSelected)
  : field.value !== field.defaultValue;

const sent = async (form, only, button) => {
  const data = new FormData(form, button ?? undefined);
  for (const one of form.querySelectorAll("[data-path]")) if (only ? one !== only : !altered(one)) data.delete(one.name);
  const now = document.querySelector(".sheet")?.dataset.digest;
  if (now && data.has("digest")) data.set("digest", now);
  const start = performance.now();
  const answer = await fetch(form.getAttribute("action"), { method: "POST", body: new URLSearchParams(data), headers: { Accept: "text/html" } });
  const html = await answer.text();
  away(false);
  if (!answer.ok) { // nothing was written: sent once more as a page of its own, it says why
    form.dataset.plain = "";
    form.requestSubmit(button ?? undefined);
    return;
  }
  put(new DOMParser().parseFromString(html, "text/html"));
  if (answer.redirected) history.replaceState({}, "", answer.url);
  performance.measure("edit", { start });
};

document.addEventListener("change", (event) => {
  const field = fieldOf(event);
  if (field) send(field.form, field);
});

document.addEventListener("submit", (event) => {
  const form = event.target;
  if ("plain" in form.dataset || !form.matches(".sheet form:not([data-plain]), .undo form, .move") || document.querySelector(".whole")) return;
  event.preventDefault();
  send(form, null, event.submitter);
});

// Ctrl-Z and Ctrl-Shift-Z outside of fields.
document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z" || event.target.closest("input, textarea, select")) return;
  const button = document.getElementById(event.shiftKey ? "redo-button" : "undo-button");
  if (!button || button.disabled) return;
  event.preventDefault();
  button.form.requestSubmit(button);
});

for (const button of document.querySelectorAll("[data-copy]")) {
  button.hidden = false;
  button.addEventListener("click", async () => {
    const text = document.getElementById(button.dataset.copy);
    try { await navigator.clipboard.writeText(text.value); } catch { text.select(); document.execCommand("copy"); }
    button.textContent = "Copied";
  });
}
