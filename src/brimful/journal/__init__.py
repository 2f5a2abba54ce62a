"""The season log: what the crew saw and did, appended and never changed."""
