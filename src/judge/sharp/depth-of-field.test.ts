import { expect, test } from 'vitest';
import { readVector } from '../../../test/vector.ts';
import { depthOfField } from './depth-of-field.ts';

interface Handbook {
  readonly table: readonly {
    readonly focal_mm: number;
    readonly f_number: number;
    readonly coc_mm: number;
    readonly focus_mm: number;
    readonly hyperfocal_mm: number;
    readonly near_mm: number;
    readonly far_mm: number | null;
  }[];
  readonly airy_um: readonly { readonly f_number: number; readonly diameter_um: number }[];
}
const handbook = readVector<Handbook>('exposure/optics-handbook.json');

test('near, far and hyperfocal are those of the table that was checked by the blur circle', () => {
  for (const row of handbook.table) {
    const depth = depthOfField({
      focalMm: row.focal_mm,
      fNumber: row.f_number,
      distanceMm: row.focus_mm,
      circleMm: row.coc_mm,
    });
    expect(depth.hyperfocalMm).toBeCloseTo(row.hyperfocal_mm, 1);
    expect(depth.nearMm).toBeCloseTo(row.near_mm, 1);
    if (row.far_mm === null) expect(depth.farMm).toBeNull();
    else expect(depth.farMm).toBeCloseTo(row.far_mm, 1);
  }
});

test('NAVEDTRA 14209: 155 mm at f/2.8, 10 ft, circle 0.002 in: 9.8 to 10.2 ft', () => {
  const { nearMm, farMm } = depthOfField({ focalMm: 155, fNumber: 2.8, distanceMm: 3048, circleMm: 0.0508 });
  expect(nearMm / 304.8).toBeCloseTo(9.8, 1);
  expect((farMm ?? 0) / 304.8).toBeCloseTo(10.2, 1);
});

test('the Airy disc is that of the handbook, and takes its share of the circle', () => {
  for (const { f_number, diameter_um } of handbook.airy_um) {
    const depth = depthOfField({ focalMm: 100, fNumber: f_number, distanceMm: 1000, circleMm: 0.03 });
    expect(depth.airyMm * 1000).toBeCloseTo(diameter_um, 2);
    expect(depth.withDiffraction?.nearMm).toBeGreaterThan(depth.nearMm);
    expect(depth.withDiffraction?.farMm).toBeLessThan(depth.farMm ?? Number.POSITIVE_INFINITY);
  }
  expect(
    depthOfField({ focalMm: 100, fNumber: 32, distanceMm: 1000, circleMm: 0.03 }).withDiffraction,
  ).toBeNull();
});
