#!/usr/bin/env python3
"""What is true of a frame of the virtual set, computed from the set's description alone.

    python3 stand_in_truth.py set.json < recipes.json > truths.json

`set.json` says where everything stands (millimetres, degrees; x right, y up, z to the camera). A recipe is an object
{shot, purpose, widthPx, heightPx, offsetPx, addedSigmaPx, exposureEv, faults: {name: value}, shakeAngle}; the answer
is a list with one truth for each. Python 3, standard library only, and nothing of the program that draws the pictures.

The physics, each from its definition:
  lens      1/image + 1/focus = 1/focal; a point at depth z is a disc of diameter A f |z - S| / (z (S - f)).
  pinhole   a point is seen where the straight line through the lens's middle meets the sensor.
  blur      variances of independent blurs add: a normal has sigma^2, a uniform disc r^2 / 4, a pixel 1/12.
  light     irradiance from a patch of a lamp: radiance cos cos' dA / distance^2; over pi for a perfect diffuser.
  colour    CIE L*a*b* (CIE 15:2004), daylight locus (CIE 15:2004, 3.1), Planck's law, Bradford (ICC.1:2010, E).
"""
import json
import math
import sys

BRADFORD = ((0.8951, 0.2664, -0.1614), (-0.7502, 1.7135, 0.0367), (0.0389, -0.0685, 1.0296))
D50 = (0.9642, 1.0, 0.8249)  # ICC.1:2010, 7.2.16
D65_XY = (0.3127, 0.3290)  # ITU-R BT.2020-2


# --- vectors ---------------------------------------------------------------------------------------------------------
def plus(a, b, t=1.0):
    return tuple(p + t * q for p, q in zip(a, b))


def minus(a, b):
    return tuple(p - q for p, q in zip(a, b))


def dot(a, b):
    return sum(p * q for p, q in zip(a, b))


def cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def unit(a):
    length = math.sqrt(dot(a, a))
    return tuple(p / length for p in a)


# --- lens and sensor -------------------------------------------------------------------------------------------------
class Camera:
    """A thin lens at `eye` before a sensor whose pixels run along `right` and `down`."""

    def __init__(self, scene, shot, purpose, width, height):
        lens = scene["lens"]
        self.width, self.height = width, height
        self.pixel = lens["sensorWidthMm"] / width
        self.focal = lens["focalMm"]
        self.aperture = lens["focalMm"] / lens["fNumber"]
        if purpose == "chart":
            place = scene["chart"]
            self.eye = tuple(place["eye"])
            self.right, self.down = (1, 0, 0), (0, -1, 0)
            self.forward = (0, 0, -1)
            self.focus = place["focusMm"]
        else:
            place = scene["shots"][shot]["camera"]
            e = math.radians(place["elevation"])
            back = (0, math.sin(e), math.cos(e))
            self.forward = tuple(-p for p in back)
            self.eye = plus(place["lookAt"], back, place["distanceMm"])
            self.focus = dot(minus(place["focus"], self.eye), self.forward)
            up = (0, math.cos(e), -math.sin(e))
            if place["orientation"] == 1:
                self.right, self.down = (1, 0, 0), tuple(-p for p in up)
            else:  # Exif orientation 6: row 0 is the picture's right side, column 0 its top
                self.right, self.down = tuple(-p for p in up), (-1, 0, 0)
            self.subject_distance = place["distanceMm"]
        self.image = 1 / (1 / self.focal - 1 / self.focus)

    def depth(self, point):
        return dot(minus(point, self.eye), self.forward)

    def mm_per_px(self, depth):
        return self.pixel * depth / self.image

    def see(self, point):
        to = minus(point, self.eye)
        scale = self.mm_per_px(dot(to, self.forward))
        return (self.width / 2 + dot(to, self.right) / scale, self.height / 2 + dot(to, self.down) / scale)

    def circle_px(self, depth):
        """Radius of the circle of confusion."""
        diameter = self.aperture * self.focal * abs(depth - self.focus) / (depth * (self.focus - self.focal))
        return diameter / 2 / self.pixel


# --- the target ------------------------------------------------------------------------------------------------------
class Target:
    def __init__(self, scene, shot, purpose):
        card = scene["target"]
        half_height = card["halfMm"][1]
        if purpose == "chart":
            self.scale = 1
            self.across, self.up = (1, 0, 0), (0, 1, 0)
            self.centre = tuple(scene["chart"]["centre"])
        else:
            place = scene["shots"][shot]["target"]
            self.scale = place["scale"]
            yaw, lean = math.radians(place["turn"]), math.radians(card["leanDegrees"])
            self.across = (math.cos(yaw), 0, -math.sin(yaw))
            behind = (-math.sin(yaw), 0, -math.cos(yaw))
            self.up = plus(tuple(math.cos(lean) * p for p in (0, 1, 0)), behind, math.sin(lean))
            foot = (place["x"], card["liftMm"], place["z"])
            self.centre = plus(foot, self.up, half_height * self.scale)
        self.face = cross(self.across, self.up)
        self.pitch, self.side = card["pitchMm"] * self.scale, card["sideMm"] * self.scale
        self.thick = card["halfMm"][2]

    def point(self, u, v):
        return plus(plus(plus(self.centre, self.across, u), self.up, v), self.face, self.thick)

    def patch(self, index):
        """Middle, then corners clockwise from the top left."""
        u = (index % 6 - 2.5) * self.pitch
        v = (1.5 - index // 6) * self.pitch
        h = self.side / 2
        return self.point(u, v), [self.point(u + a * h, v + b * h) for a, b in ((-1, 1), (1, 1), (1, -1), (-1, -1))]


# --- light -----------------------------------------------------------------------------------------------------------
def irradiance(lamp, at, normal, pieces=40):
    """Over pi, from a flat rectangle that is `hotspot` / 2 (u^2 + v^2) darker away from its middle."""
    centre = tuple(lamp["centre"])
    shines = unit(minus(lamp["towards"], centre))
    across = unit(cross((0, 1, 0), shines))
    up = cross(shines, across)
    total = 0.0
    for i in range(pieces):
        for j in range(pieces):
            u, v = (2 * i + 1) / pieces - 1, (2 * j + 1) / pieces - 1
            spot = plus(plus(centre, across, u * lamp["widthMm"] / 2), up, v * lamp["heightMm"] / 2)
            way = minus(spot, at)
            square = dot(way, way)
            here, there = max(0.0, dot(normal, way)), max(0.0, -dot(shines, way))
            total += here * there / square**2 * (1 - lamp["hotspot"] / 2 * (u * u + v * v))
    area = lamp["widthMm"] * lamp["heightMm"] / pieces**2
    return lamp["radiance"] * total * area / math.pi


def bounced(lamps, room, target):
    """Over pi: what the target's face sees of bare level paper and of the room, by rings of equal share of the cosine."""
    at = target.point(0, 0)
    face = target.face
    across = unit(cross((0, 1, 0), face))
    up = cross(face, across)
    total, rings, spokes = 0.0, 10, 20
    for i in range(rings):
        sine = math.sqrt((i + 0.5) / rings)
        for j in range(spokes):
            turn = 2 * math.pi * j / spokes
            flat = plus(tuple(math.cos(turn) * p for p in across), up, math.sin(turn))
            way = plus(tuple(math.sqrt(1 - sine * sine) * p for p in face), flat, sine)
            total += seen(lamps, room, at, way)
    return total / (rings * spokes)


def seen(lamps, room, at, way):
    if way[1] >= 0:
        return room["glow"] * (0.6 + 0.4 * way[1])
    x, _, z = plus(at, way, -at[1] / way[1])
    kept = fade(z - room["frontMm"], room["fadeMm"]) * fade(abs(x) - room["sideMm"], room["fadeMm"])
    if kept == 0:
        return 0.0
    shine = room["glow"] + sum(irradiance(lamp, (x, 0, z), (0, 1, 0), 5) for lamp in lamps)
    return room["paper"] * shine * kept


def fade(beyond, over):
    t = min(1.0, max(0.0, beyond / over))
    return 1 - t * t * (3 - 2 * t)


# --- colour ----------------------------------------------------------------------------------------------------------
def apply(matrix, v):
    return tuple(dot(row, v) for row in matrix)


def inverse(m):
    """By Cramer's rule."""
    a, b, c = m
    determinant = dot(a, cross(b, c))
    columns = (cross(b, c), cross(c, a), cross(a, b))
    return tuple(tuple(column[row] / determinant for column in columns) for row in range(3))


def adapt(colour, source, destination):
    cones = apply(BRADFORD, colour)
    scaled = [p * d / s for p, s, d in zip(cones, apply(BRADFORD, source), apply(BRADFORD, destination))]
    return apply(inverse(BRADFORD), scaled)


def lab_to_xyz(lab):
    fy = (lab[0] + 16) / 116
    back = lambda f: f**3 if f > 6 / 29 else 3 * (6 / 29) ** 2 * (f - 4 / 29)
    return (D50[0] * back(fy + lab[1] / 500), D50[1] * back(fy), D50[2] * back(fy - lab[2] / 200))


def to_xyz(xy):
    return (xy[0] / xy[1], 1.0, (1 - xy[0] - xy[1]) / xy[1])


def daylight(kelvin):
    t = 1000 / kelvin
    if kelvin <= 7000:
        x = -4.6070 * t**3 + 2.9678 * t**2 + 0.09911 * t + 0.244063
    else:
        x = -2.0064 * t**3 + 1.9018 * t**2 + 0.24748 * t + 0.237040
    return (x, -3.000 * x * x + 2.870 * x - 0.275)


def planckian(kelvin):
    """Planck's law summed over the CIE 1931 observer in the form of Wyman, Sloan and Shirley (JCGT 2(2), 2013)."""

    def lobe(x, mean, low, high):
        t = (x - mean) * (low if x < mean else high)
        return math.exp(-0.5 * t * t)

    sums = [0.0, 0.0, 0.0]
    for nm in range(360, 831):
        power = nm**-5.0 / math.expm1(1.438777e7 / (nm * kelvin))
        red = 0.362 * lobe(nm, 442.0, 0.0624, 0.0374) + 1.056 * lobe(nm, 599.8, 0.0264, 0.0323)
        red -= 0.065 * lobe(nm, 501.1, 0.0490, 0.0382)
        green = 0.821 * lobe(nm, 568.8, 0.0213, 0.0247) + 0.286 * lobe(nm, 530.9, 0.0613, 0.0322)
        blue = 1.217 * lobe(nm, 437.0, 0.0845, 0.0278) + 0.681 * lobe(nm, 459.0, 0.0385, 0.0725)
        sums = [s + power * c for s, c in zip(sums, (red, green, blue))]
    return (sums[0] / sum(sums), sums[1] / sum(sums))


# --- ware ------------------------------------------------------------------------------------------------------------
def smooth_curve(points, step=2.0):
    """Centripetal Catmull-Rom through the points; beyond an end its neighbour is mirrored. Knots on the first two figures."""
    ends = [tuple(2 * p - q for p, q in zip(points[0], points[1]))]
    last = [tuple(2 * p - q for p, q in zip(points[-1], points[-2]))]
    held = [ends[0][:2] + (points[0][2],)] + [tuple(p) for p in points] + [last[0][:2] + (points[-1][2],)]
    found = []
    for k in range(1, len(held) - 2):
        four = held[k - 1 : k + 3]
        knots = [0.0]
        for a, b in zip(four, four[1:]):
            knots.append(knots[-1] + max(1e-6, math.sqrt(math.dist(a[:2], b[:2]))))
        pieces = max(2, math.ceil(math.dist(four[1][:2], four[2][:2]) / step))
        for n in range(pieces):
            t = knots[1] + (knots[2] - knots[1]) * n / pieces
            level = four
            for order in (1, 2):
                # Pyramid: the first level spans one knot, the second two; what is left is joined over the middle.
                level = [
                    lerp(level[i], level[i + 1], (t - knots[i]) / (knots[i + order] - knots[i]))
                    for i in range(len(level) - 1)
                ]
            found.append(lerp(level[0], level[1], (t - knots[1]) / (knots[2] - knots[1])))
    return found + [held[-2]]


def lerp(a, b, t):
    return tuple(p + (q - p) * t for p, q in zip(a, b))


def skin(shape, rounds=60, turns=12):
    """Points on the surface of a piece, in its own frame."""
    lip = shape.get("lip")
    for curve in [shape["wall"]] + shape.get("extras", []):
        for radius, y, half in smooth_curve(curve):
            for n in range(turns):
                psi = 2 * math.pi * n / turns
                r, h = radius + half * math.cos(psi), y + half * math.sin(psi)
                for m in range(rounds):
                    phi = 2 * math.pi * m / rounds
                    out = r
                    if lip and h > lip["from"] and math.cos(phi) > 0:
                        grown = min(1.0, (h - lip["from"]) / (lip["to"] - lip["from"]))
                        out += lip["pull"] * grown**2 * math.cos(phi) ** 4
                    yield (out * math.cos(phi), h, out * math.sin(phi))
    for limb in shape.get("limbs", []):
        cut = limb.get("cut")
        for x, y, half in smooth_curve(limb["spine"], 0.8):
            for n in range(2 * turns):
                for m in range(-6, 7):
                    psi, tilt = math.pi * n / turns, math.pi / 12 * m
                    flat = half * math.cos(tilt)
                    side = half / limb["flatness"] * math.sin(tilt)
                    px, py = x + flat * math.cos(psi), y + flat * math.sin(psi)
                    if not cut or cut["x"] * px + cut["y"] * py <= cut["at"]:
                        yield (px, py, side)


def subject_box(scene, shot, camera, shift_mm):
    left = top = math.inf
    right = bottom = -math.inf
    for piece in scene["shots"][shot]["pieces"]:
        turn = math.radians(piece["turn"])
        c, s = math.cos(turn), math.sin(turn)
        for x, y, z in skin(scene["shapes"][piece["shape"]]):
            world = (piece["x"] + shift_mm + c * x + s * z, piece["y"] + y, piece["z"] - s * x + c * z)
            px, py = camera.see(world)
            left, right = min(left, px), max(right, px)
            top, bottom = min(top, py), max(bottom, py)
    return [left, top, right, bottom]


# --- a frame ---------------------------------------------------------------------------------------------------------
def truth(scene, recipe):
    shot, purpose, faults = recipe["shot"], recipe["purpose"], recipe.get("faults", {})
    camera = Camera(scene, shot, purpose, recipe["widthPx"], recipe["heightPx"])
    dx, dy = recipe["offsetPx"]
    lens_sigma = scene["lens"]["sigmaPx"]
    sigma = math.sqrt(lens_sigma**2 + recipe["addedSigmaPx"] ** 2 + faults.get("soft", 0) ** 2)
    kelvin = faults.get("tint")
    white = D65_XY if kelvin is None else daylight(kelvin) if kelvin >= 5000 else planckian(kelvin)
    answer = {
        "exposureEv": recipe["exposureEv"] + faults.get("exposure", 0),
        "sigmaPx": sigma,
        "sigmaWithPixelPx": math.sqrt(sigma**2 + 1 / 12),
        "shakeVariance": shake_variance(faults.get("shake", 0), recipe.get("shakeAngle", 0)),
        "lens": {
            "focalMm": camera.focal,
            "apertureMm": camera.aperture,
            "focusMm": camera.focus,
            "imageMm": camera.image,
            "pixelMm": camera.pixel,
        },
        "whiteXy": list(white),
        "subject": None,
        "patches": [],
    }
    if purpose != "chart":
        per_px = camera.mm_per_px(camera.subject_distance)
        shift_mm = faults.get("shift", 0) * per_px
        box = subject_box(scene, shot, camera, shift_mm)
        answer["subject"] = {
            "boxPx": [box[0] + dx, box[1] + dy, box[2] + dx, box[3] + dy],
            "shiftMm": shift_mm,
            "shiftPx": [shift_mm * camera.right[0] / per_px, shift_mm * camera.down[0] / per_px],
        }
    if purpose != "picture":
        target = Target(scene, shot, purpose)
        dark = "strobe" in faults and purpose != "chart"
        lamps, firing = scene["lights"], scene["lights"][1:]
        if dark:
            bounce_all, bounce = (bounced(some, scene["room"], target) for some in (lamps, firing))
        for index, lab in enumerate(scene["patches"]):
            middle, corners = target.patch(index)
            circle = camera.circle_px(camera.depth(middle))
            light_ev = 0.0
            if dark:
                light = bounce + sum(irradiance(lamp, middle, target.face, 20) for lamp in firing)
                whole = bounce_all + sum(irradiance(lamp, middle, target.face, 20) for lamp in lamps)
                light_ev = math.log2(light / whole)
            answer["patches"].append(
                {
                    "patch": index + 1,
                    "cornersPx": [[x + dx, y + dy] for x, y in map(camera.see, corners)],
                    "circlePx": circle,
                    "sigmaPx": math.sqrt(sigma**2 + circle**2 / 4),
                    "lightEv": light_ev,
                    "xyz": list(adapt(adapt(lab_to_xyz(lab), D50, to_xyz(D65_XY)), to_xyz(D65_XY), to_xyz(white))),
                }
            )
    return answer


def shake_variance(length, degrees):
    """Along x and y: a uniform line of length L has L^2 / 12 along itself."""
    along = length**2 / 12
    return [along * math.cos(math.radians(degrees)) ** 2, along * math.sin(math.radians(degrees)) ** 2]


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        scene = json.load(file)
    json.dump([truth(scene, recipe) for recipe in json.load(sys.stdin)], sys.stdout)


if __name__ == "__main__":
    main()
