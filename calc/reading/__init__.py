"""Reading a customer's message: the questions that it asks, and the fields that it fills."""

from calc.reading.found import Filled, Message, Question, Unclear
from calc.reading.message import read
from calc.reading.telling import data

__all__ = ["Filled", "Message", "Question", "Unclear", "data", "read"]
