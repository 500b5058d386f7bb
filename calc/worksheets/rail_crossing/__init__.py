"""Am I across the tracks before a train comes?"""
