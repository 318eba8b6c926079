"""What a picture shows, worked out before anything is drawn.

In comes a `Decision` of `frame.plan` or a rack with a bracing, out goes a `Beside`: one or two
racks, each under its own weight and in the wind that moves it most, with the movements that the
first screen tells, and where it flexes. Open first: `beside`.
"""
