"""What more than one calculator computes, checks or draws, once."""
