"""The putter as a rigid body: parts, balance, hang, inertia, bending, and the equipment rules."""
