"""Files to carry away: spreadsheet, CSV, calendar, one order a supplier. The same plan gives the same bytes."""
