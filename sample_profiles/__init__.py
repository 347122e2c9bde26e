"""Profiles of invented observers."""
