"""PTO driveline: length over the lift, joint angles, how even it turns, what lets go first."""
