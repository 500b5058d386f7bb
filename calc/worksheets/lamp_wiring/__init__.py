"""Will the charging system, the wires and the fuse carry these lamps?"""
