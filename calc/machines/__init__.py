"""The vocabulary of a tractor, an implement and a job, and lists of machines."""

from calc.machines.lists import MOST_ROWS, ROLES, Machine, demo, fields, read_machines

__all__ = ["MOST_ROWS", "ROLES", "Machine", "demo", "fields", "read_machines"]
