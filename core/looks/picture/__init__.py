"""The picture in the eyepiece, computed as arrays: the planet, blurred by telescope and air, and turned."""
