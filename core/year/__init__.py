"""A planet's year of evenings, its best weeks, better dates and phenomena."""
