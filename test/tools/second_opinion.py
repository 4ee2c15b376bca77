"""Second opinions of scikit-image and OpenCV, for test/vectors/second-opinion.test.ts.

Not needed by `npm test`: without both libraries the test is skipped by name. On Debian:
apt-get install python3-skimage python3-opencv

  second_opinion.py register REFERENCE.png MOVED.png...   where MOVED lies against REFERENCE
  second_opinion.py deltae                                CIEDE2000 of Lab pairs, JSON on standard input

Answers are JSON on standard output. Pixels, y down; a point p of the reference lies at p + (dx, dy) in the moved picture;
rotation clockwise as seen, degrees.
"""

import json
import math
import sys

import cv2
import numpy as np
from skimage.color import deltaE_ciede2000
from skimage.registration import phase_cross_correlation


def grey(path):
    picture = cv2.imread(path, cv2.IMREAD_GRAYSCALE)
    if picture is None:
        raise SystemExit(f"cannot read {path}")
    return picture.astype(np.float32)


def register(reference, moved):
    # Its answer is the shift that brings the moved picture back; whole pictures only, so shifts without a turn.
    back = phase_cross_correlation(reference, moved, upsample_factor=100)[0]
    warp = np.eye(2, 3, dtype=np.float32)
    warp[0, 2], warp[1, 2] = -back[1], -back[0]
    stop = (cv2.TERM_CRITERIA_EPS | cv2.TERM_CRITERIA_COUNT, 500, 1e-9)
    # Maps points of the reference to the moved picture.
    _, warp = cv2.findTransformECC(reference, moved, warp, cv2.MOTION_AFFINE, stop, None, 5)
    rows, columns = reference.shape
    middle = np.array([(columns - 1) / 2, (rows - 1) / 2, 1.0])
    at = warp @ middle
    return {
        "skimage": {"dx": float(-back[1]), "dy": float(-back[0])},
        "opencv": {
            "dx": float(at[0] - middle[0]),
            "dy": float(at[1] - middle[1]),
            "rotationDegrees": math.degrees(math.atan2(warp[1, 0] - warp[0, 1], warp[0, 0] + warp[1, 1])),
            "scale": math.sqrt(abs(float(np.linalg.det(warp[:, :2])))),
        },
    }


def main(how, *paths):
    if how == "register":
        reference = grey(paths[0])
        print(json.dumps([register(reference, grey(path)) for path in paths[1:]]))
    elif how == "deltae":
        pairs = np.array(json.load(sys.stdin), dtype=float)
        print(json.dumps(deltaE_ciede2000(pairs[:, 0], pairs[:, 1]).tolist()))
    elif how == "versions":
        import skimage

        print(json.dumps({"skimage": skimage.__version__, "opencv": cv2.__version__}))
    else:
        raise SystemExit(__doc__)


main(*sys.argv[1:])
