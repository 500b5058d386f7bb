"""Can my tractor stop what it tows on the road?"""
