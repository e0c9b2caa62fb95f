"""Fit: measured words and a family of outlines make a balloon, or the front of shapes."""
