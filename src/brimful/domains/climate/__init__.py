"""Reference evapotranspiration, sun, seasons."""
