"""The same answers by another way: general solvers and simulation, over random machines."""
