"""Lift and ballast: can the hitch lift it, and what is left on each axle.

The implement is raised at rest on level ground. The front axle rules, the rating
distances and the usual masses are tables; everything else is a balance of moments."""
