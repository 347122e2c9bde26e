"""Which moments of an evening count: best minutes and the stop line."""
