"""Controls that more than one view uses."""
