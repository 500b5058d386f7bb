"""What does my machine need to travel on the road?"""
