"""The book the crew takes outside: one module a page, set by typst from the same worked design."""
