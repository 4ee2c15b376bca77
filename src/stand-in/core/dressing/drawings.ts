/** Drawings of the things that lie about, millimetres; seen from above, x to the right, y away from the camera. */
import type { LimbShape } from '../ware/shape.ts';

/** Lies on its face. */
export const spoon: readonly LimbShape[] = [
  {
    spine: [
      [-62, 0, 4.6],
      [-52, 0, 4.8],
      [-20, 0, 3.1],
      [12, 0, 2.5],
      [26, 0, 3.6],
      [35, 0, 9],
      [47, 0, 13.4],
      [60, 0, 12],
      [70, 0, 6],
      [74, 0, 1.2],
    ],
    flatness: 3.6,
  },
];
export const spoonRise = 3.8;

const leaf = (x: number, y: number, degrees: number, length: number): LimbShape => {
  const c = Math.cos((degrees * Math.PI) / 180);
  const s = Math.sin((degrees * Math.PI) / 180);
  const width = length * 0.13;
  const at = (along: number, half: number, bend: number): readonly [number, number, number] => [
    x + c * along * length - s * bend,
    y + s * along * length + c * bend,
    half,
  ];
  return {
    spine: [
      at(0, 0.7, 0),
      at(0.12, width * 0.4, 0.3),
      at(0.35, width * 0.95, 0.9),
      at(0.55, width, 0.8),
      at(0.8, width * 0.55, 0),
      at(1, 0.4, -1.2),
    ],
    flatness: 7,
  };
};

/** Olive, or something like it. */
export const twig: readonly LimbShape[] = [
  {
    spine: [
      [-48, -5, 1.5],
      [-20, -1, 1.3],
      [14, 1, 1.1],
      [46, -4, 0.9],
    ],
    flatness: 1,
  },
  leaf(-30, -2, 48, 36),
  leaf(-24, -2, -42, 39),
  leaf(-4, 0, 38, 40),
  leaf(4, 0, -52, 36),
  leaf(22, 1, 45, 34),
  leaf(30, -1, -38, 33),
  leaf(45, -4, -6, 37),
];
export const twigRise = 1.9;

export const cable: readonly LimbShape[] = [
  {
    spine: [
      [-150, 40, 1.9],
      [-90, 18, 1.9],
      [-40, 34, 1.9],
      [10, 30, 1.9],
      [50, -2, 1.9],
      [100, 6, 1.9],
      [170, -16, 1.9],
    ],
    flatness: 1,
  },
];
export const cableRise = 1.9;

/** A large one, a middling one and dust. */
export const crumbs: readonly (readonly LimbShape[])[] = [
  [
    {
      spine: [
        [-1.1, 0, 0.9],
        [0.4, 0.5, 1.5],
        [1.6, -0.1, 0.7],
      ],
      flatness: 1.2,
    },
  ],
  [
    {
      spine: [
        [-0.6, 0, 0.6],
        [0.5, 0.2, 0.8],
      ],
      flatness: 1,
    },
  ],
  [
    {
      spine: [
        [-0.3, 0, 0.36],
        [0.3, 0.1, 0.3],
      ],
      flatness: 1,
    },
  ],
];
