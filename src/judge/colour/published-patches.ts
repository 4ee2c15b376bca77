import { labToXyz, type Vector3 } from '../../colour/index.ts';
import type { TargetEdition } from '../../facts/index.ts';

/** L*a*b* D50 of the 24 patches, 2 degree observer, row by row from dark skin to black. */
export interface PublishedPatches {
  readonly edition: TargetEdition;
  readonly lab: readonly Vector3[];
  readonly xyz: readonly Vector3[];
}

/** Patches by number that are grey, without the white and the black: what balance is read from. */
export const greyPatches: readonly number[] = [20, 21, 22, 23];

/** Manufacturer's data published 2016 (those of 2005 within rounding), as collected by colour-science/colour 9d743142. */
const beforeNovember2014: readonly Vector3[] = [
  [37.986, 13.555, 14.059],
  [65.711, 18.13, 17.81],
  [49.927, -4.88, -21.905],
  [43.139, -13.095, 21.905],
  [55.112, 8.844, -25.399],
  [70.719, -33.397, -0.199],
  [62.661, 36.067, 57.096],
  [40.02, 10.41, -45.964],
  [51.124, 48.239, 16.248],
  [30.325, 22.976, -21.587],
  [72.532, -23.709, 57.255],
  [71.941, 19.363, 67.857],
  [28.778, 14.179, -50.297],
  [55.261, -38.342, 31.37],
  [42.101, 53.378, 28.19],
  [81.733, 4.039, 79.819],
  [51.935, 49.986, -14.574],
  [51.038, -28.631, -28.638],
  [96.539, -0.425, 1.186],
  [81.257, -0.638, -0.335],
  [66.766, -0.734, -0.504],
  [50.867, -0.153, -0.27],
  [35.656, -0.421, -1.231],
  [20.461, -0.079, -0.973],
];

/** Manufacturer's data published 2016, from the same collection. Mean distance from the older edition 0.85, largest 1.95. */
const fromNovember2014: readonly Vector3[] = [
  [37.54, 14.37, 14.92],
  [64.66, 19.27, 17.5],
  [49.32, -3.82, -22.54],
  [43.46, -12.74, 22.72],
  [54.94, 9.61, -24.79],
  [70.48, -32.26, -0.37],
  [62.73, 35.83, 56.5],
  [39.43, 10.75, -45.17],
  [50.57, 48.64, 16.67],
  [30.1, 22.54, -20.87],
  [71.77, -24.13, 58.19],
  [71.51, 18.24, 67.37],
  [28.37, 15.42, -49.8],
  [54.38, -39.72, 32.27],
  [42.43, 51.05, 28.62],
  [81.8, 2.67, 80.41],
  [50.63, 51.28, -14.12],
  [49.57, -29.71, -28.32],
  [95.19, -1.03, 2.93],
  [81.29, -0.57, 0.44],
  [66.89, -0.75, -0.06],
  [50.76, -0.13, 0.14],
  [35.63, -0.46, -0.48],
  [20.64, 0.07, -0.46],
];

export const publishedPatches: Readonly<Record<TargetEdition, PublishedPatches>> = {
  'before-november-2014': published('before-november-2014', beforeNovember2014),
  'from-november-2014': published('from-november-2014', fromNovember2014),
};

function published(edition: TargetEdition, lab: readonly Vector3[]): PublishedPatches {
  return { edition, lab, xyz: lab.map((each) => labToXyz(each)) };
}
