"""What hitch category is it, do these two fit, which sleeves, and does the coupler agree?"""
