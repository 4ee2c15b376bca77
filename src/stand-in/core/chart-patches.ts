/**
 * The 24-patch target, charts made from November 2014 on: CIE L*a*b*, D50, 2 degrees, row by row from dark skin.
 * Manufacturer's data published 2016 as quoted in colour-science/colour 9d743142,
 * colour/characterisation/datasets/colour_checkers/chromaticity_coordinates.py (BSD-3-Clause; BabelColor data).
 */
export interface ChartPatch {
  readonly name: string;
  readonly labD50: readonly [number, number, number];
}

export const chartColumns = 6;
export const chartRows = 4;

export const chartPatches: readonly ChartPatch[] = [
  { name: 'dark skin', labD50: [37.54, 14.37, 14.92] },
  { name: 'light skin', labD50: [64.66, 19.27, 17.5] },
  { name: 'blue sky', labD50: [49.32, -3.82, -22.54] },
  { name: 'foliage', labD50: [43.46, -12.74, 22.72] },
  { name: 'blue flower', labD50: [54.94, 9.61, -24.79] },
  { name: 'bluish green', labD50: [70.48, -32.26, -0.37] },
  { name: 'orange', labD50: [62.73, 35.83, 56.5] },
  { name: 'purplish blue', labD50: [39.43, 10.75, -45.17] },
  { name: 'moderate red', labD50: [50.57, 48.64, 16.67] },
  { name: 'purple', labD50: [30.1, 22.54, -20.87] },
  { name: 'yellow green', labD50: [71.77, -24.13, 58.19] },
  { name: 'orange yellow', labD50: [71.51, 18.24, 67.37] },
  { name: 'blue', labD50: [28.37, 15.42, -49.8] },
  { name: 'green', labD50: [54.38, -39.72, 32.27] },
  { name: 'red', labD50: [42.43, 51.05, 28.62] },
  { name: 'yellow', labD50: [81.8, 2.67, 80.41] },
  { name: 'magenta', labD50: [50.63, 51.28, -14.12] },
  { name: 'cyan', labD50: [49.57, -29.71, -28.32] },
  { name: 'white 9.5', labD50: [95.19, -1.03, 2.93] },
  { name: 'neutral 8', labD50: [81.29, -0.57, 0.44] },
  { name: 'neutral 6.5', labD50: [66.89, -0.75, -0.06] },
  { name: 'neutral 5', labD50: [50.76, -0.13, 0.14] },
  { name: 'neutral 3.5', labD50: [35.63, -0.46, -0.48] },
  { name: 'black 2', labD50: [20.64, 0.07, -0.46] },
];
