"""Can this tractor run this implement?"""
