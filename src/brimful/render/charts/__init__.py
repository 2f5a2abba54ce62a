"""Charts as Vega-Lite specifications, one module each: plain data, live in a page, SVG in print."""
