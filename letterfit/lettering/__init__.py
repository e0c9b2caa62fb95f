"""Lettering: typefaces, and texts measured in them; the only place that calls HarfBuzz."""
