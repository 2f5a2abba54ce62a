"""Steps, crew and calendar."""
