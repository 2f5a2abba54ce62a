"""Drawings: ink on paper, to scale, each from the scene of one worked design; SVG without script, style sheet or id."""
