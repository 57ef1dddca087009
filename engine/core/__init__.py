"""Physics and decisions in SI floats and radians; axes and signs are stated here.

Axes: x runs along the line from ball to target, y to the player's RIGHT as they
face the target, z up. Angles are radians; azimuth is positive to the right of the
target line. A wind is named by where it comes FROM: ``wind_from_rad`` is clockwise
from the target line, 0 = straight into the face, pi/2 = from the right, pi = helping,
3 pi/2 = from the left. The velocity of the air is therefore
``(-cos(from), -sin(from), 0) * speed``. Spin axis tilt is positive when it curves
the ball to the right. Sides in results are metres, right positive. Handedness is
turned into those signs at the boundary: nothing in the core knows left from right
hand except through the sign of a curve or a miss.
"""
