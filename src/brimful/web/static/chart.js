// Draws the chart that the page carries; until then, and where this cannot run, its picture stands there. Formulas in a
// chart are read by an interpreter, never made into code, so that the page may forbid code made from text.
"use strict";

const LEGEND_PX = 210;
const TALLER = 1.5;
const dark = matchMedia("(prefers-color-scheme: dark)");
let drawnChart = null;

// In the dark ink turns light; the values, flowers' colours among them, stay as they are.
const inked = (part, inks) => {
  if (typeof part === "string") return inks[part.toUpperCase()] ?? (part === "white" ? inks["#FFFFFF"] : part);
  if (Array.isArray(part)) return part.map((one) => inked(one, inks));
  if (part === null || typeof part !== "object") return part;
  return Object.fromEntries(Object.entries(part).map(([key, one]) => [key, key === "data" ? one : inked(one, inks)]));
};

const settled = (given, place) => {
  const { spec, config } = dark.matches ? { spec: inked(given.spec, given.dark), config: inked(given.config, given.dark) } : given;
  const { title, $schema, ...rest } = spec; // the title is the heading of the page
  const columns = Math.max(1, Math.floor(place.clientWidth / LEGEND_PX));
  const room = place.clientWidth / columns - 70;
  return {
    ...rest,
    description: title.text,
    height: TALLER * spec.height,
    autosize: { type: "fit-x", contains: "padding" },
    config: { ...config, font: getComputedStyle(place).fontFamily, legend: { ...config.legend, columns, labelLimit: room } },
  };
};

const drawChart = async () => {
  const place = document.getElementById("chart");
  const held = document.getElementById("chart-drawing");
  if (!place || !held || !globalThis.vegaEmbed) return;
  const still = place.innerHTML;
  const stage = document.createElement("div");
  stage.className = "stage";
  place.replaceChildren(stage);
  drawnChart?.finalize();
  try {
    drawnChart = await vegaEmbed(stage, settled(JSON.parse(held.textContent), place), {
      actions: false, ast: true, defaultStyle: false, mode: "vega-lite", renderer: "svg",
      tooltip: { disableDefaultStyle: true },
    });
  } catch (error) {
    place.innerHTML = still;
    throw error;
  }
};

dark.addEventListener("change", drawChart);
document.addEventListener("dressed", drawChart);
drawChart();
