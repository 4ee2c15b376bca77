/**
 * How far sensor saturation lies above a white diffuse surface (scene value 1.0), in stops, where a file does not state it:
 * the assumption by name that stands in for BaselineExposure.
 *
 * ISO 12232 defines saturation-based speed so that a metered 18 % grey lies at 10 / 78 of saturation: H = 10 / S for the
 * grey, 78 / S for saturation. Saturation is then 0.18 x 7.8 = 1.40 of scene value 1.0, half a stop: the room it leaves
 * for highlights.
 */
export const assumedHeadroomEv = 0.5;

/** Factor from balanced camera light (1.0 = first channel saturates) to scene light (1.0 = white diffuse surface). */
export function balancedToScene(baselineExposureEv: number): number {
  return 2 ** baselineExposureEv;
}
