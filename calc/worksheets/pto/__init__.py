"""Is there enough power at the PTO for this implement, and how wide may it be?"""
