"""Water held by a mix in a container of a given depth and shape."""
