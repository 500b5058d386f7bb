"""What the units of the trade are in SI: `24 * si.INCH` is a length in m.

All are exact by definition but the horsepower and the pound per square inch, which are rounded
to 16 figures.

Source: NIST Special Publication 811, appendix B.8.
"""

INCH = 0.0254  # m
FOOT = 0.3048  # m
POUND = 0.45359237  # kg
GALLON = 0.003785411784  # m3, the US gallon: 231 in3
MPH = 0.44704  # m/s
KMH = 1 / 3.6  # m/s
HP = 745.6998715822702  # W: 550 ft lbf a second
PSI = 6894.757293168361  # Pa
