"""Reading a customer's message: the questions that it asks, and the fields that it fills."""

from calc.reading.message import Filled, Message, Question, Unclear, read
from calc.reading.telling import data

__all__ = ["Filled", "Message", "Question", "Unclear", "data", "read"]
