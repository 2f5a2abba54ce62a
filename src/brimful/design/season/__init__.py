"""The season: weather-years, sun, growth, store, and the timer's setting for each zone and week at a stated risk."""
