"""Stands in for the runtime's module for running text."""

from _pyodide._base import eval_code as eval_code
