"""How a planet looks: its disc, what to expect of it, filters, and the picture in the eyepiece."""
