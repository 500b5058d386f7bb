"""Stands in for the runtime's bindings by signature: no function of JavaScript is called."""

default_signature = None
no_default = None
