// Rows and what shades them, dragged on the site plan or moved by the arrow keys; without this by their fields.
"use strict";

const STEP_M = 0.1, BIG_M = 1, WAIT_MS = 500;
const things = "[data-row], [data-shade]";

const dressSite = () => {
  for (const svg of document.querySelectorAll(".site svg:not([data-dressed])")) {
    svg.dataset.dressed = "";
    svg.setAttribute("role", "group");
    for (const thing of svg.querySelectorAll(things)) {
      const name = thing.dataset.name;
      thing.setAttribute("tabindex", "0");
      thing.setAttribute("role", "button");
      thing.setAttribute("aria-label", `${name}: drag it, or move it with the arrow keys`);
      reach(svg, thing);
    }
  }
};

// Room for a finger round a thin row, and round its last container.
const reach = (svg, thing) => {
  const per = svg.viewBox.baseVal.width / (svg.getBoundingClientRect().width || svg.viewBox.baseVal.width);
  const room = (box, more, put) => {
    const rect = document.createElementNS(svg.namespaceURI, "rect");
    for (const [key, value] of Object.entries({ x: box.x - more, y: box.y - more, width: box.width + 2 * more, height: box.height + 2 * more }))
      rect.setAttribute(key, value);
    rect.setAttribute("fill", "transparent");
    put(rect);
    return rect;
  };
  const ones = [...thing.querySelectorAll("[data-kind=container]")];
  const line = thing.querySelector("line");
  if (line) room(line.getBBox(), 14 * per, (rect) => thing.prepend(rect));
  if (ones.length < 2) return;
  const last = ones.at(-1);
  last.dataset.end = "";
  room(last.getBBox(), 10 * per, (rect) => thing.append(rect)).dataset.end = "";
};
dressSite();
new MutationObserver(dressSite).observe(document.body, { childList: true, subtree: true });

// How many metres a pixel of the screen is.
const scale = (svg) => 1 / (Number(svg.dataset.perM) * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width);

let held = null;

document.addEventListener("pointerdown", (event) => {
  const thing = event.target.closest?.(".site svg")?.contains(event.target) && event.target.closest(things);
  if (!thing || event.button) return;
  event.preventDefault();
  thing.focus({ preventScroll: true });
  held = { thing, end: "end" in event.target.dataset ? thing.querySelector("[data-kind][data-end]") : null, x: event.clientX, y: event.clientY, dx: 0, dy: 0 };
  thing.setPointerCapture(event.pointerId);
  thing.dataset.held = ""; // the page is not redrawn under the hand
});

document.addEventListener("pointermove", (event) => {
  if (!held) return;
  held.dx = event.clientX - held.x;
  held.dy = event.clientY - held.y;
  show(held.end ?? held.thing, held.dx, held.dy, held.thing.closest("svg"));
});

const show = (what, dx, dy, svg) => {
  const per = svg.viewBox.baseVal.width / svg.getBoundingClientRect().width;
  what.setAttribute("transform", `translate(${dx * per} ${dy * per})`);
};

const drop = (cancel) => {
  if (!held) return;
  const { thing, end, dx, dy } = held;
  held = null;
  if (cancel || Math.hypot(dx, dy) < 4) {
    (end ?? thing).removeAttribute("transform");
    delete thing.dataset.held;
  }
  else moved(thing, end ? "end" : "", dx, -dy);
};
document.addEventListener("pointerup", () => drop(false));
document.addEventListener("pointercancel", () => drop(true));

const moved = (thing, end, dx, dy) => {
  const per = scale(thing.closest("svg"));
  write(thing, end, dx * per, dy * per);
};

// The page is redrawn when it is written; whoever moved it stays on it.
const write = async (thing, end, east, north) => {
  const form = document.querySelector(".move");
  const { row, shade } = thing.dataset;
  form.elements.kind.value = end || (row ? "row" : "shade");
  form.elements.number.value = row ?? shade;
  form.elements.east.value = east.toFixed(3);
  form.elements.north.value = north.toFixed(3);
  const which = row ? `[data-row="${row}"]` : `[data-shade="${shade}"]`;
  await send(form, null, null);
  [...document.querySelectorAll(`.site ${which}`)].find((one) => one.getBoundingClientRect().width)?.focus({ preventScroll: true });
};

const ways = { ArrowUp: [0, 1], ArrowDown: [0, -1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] };
let steps = null;

document.addEventListener("keydown", (event) => {
  const thing = event.target.closest?.(things);
  const way = ways[event.key];
  if (!thing || !way || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  const by = event.shiftKey ? BIG_M : STEP_M;
  if (steps && steps.thing !== thing) walk();
  steps ??= { thing, east: 0, north: 0 };
  thing.dataset.held = "";
  steps.east += by * way[0];
  steps.north += by * way[1];
  const per = scale(thing.closest("svg"));
  show(thing, steps.east / per, -steps.north / per, thing.closest("svg"));
  clearTimeout(steps.waits);
  steps.waits = setTimeout(walk, WAIT_MS);
});

const walk = () => {
  const { thing, east, north, waits } = steps;
  clearTimeout(waits);
  steps = null;
  write(thing, "", east, north);
};
