"""How far off must a driver see me?"""
