"""The torque that reaches each joint: the path from the motor, the blow, what slips."""
