import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { adaptWhite } from './adaptation.ts';
import { deltaE2000 } from './difference.ts';
import { encodeIccProfile } from './icc-profile.ts';
import { xyzToLab } from './lab.ts';
import { applyMatrix, type Vector3 } from './matrix.ts';
import { type RgbSpaceName, rgbSpaceNames, rgbSpaces } from './rgb-spaces.ts';
import { d50Xyz, xyToXyz } from './white-points.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-icc-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Every corner, edge middle and some greys of the 8-bit cube. */
const samples: readonly Vector3[] = [0, 64, 128, 255].flatMap((r) =>
  [0, 64, 128, 255].flatMap((g) => [0, 64, 128, 255].map((b): Vector3 => [r, g, b])),
);

function profilePath(name: RgbSpaceName, version: 2 | 4, linear = false): string {
  const path = join(folder, `${name}-${version}-${linear}.icc`);
  writeFileSync(path, encodeIccProfile(rgbSpaces[name], { version, linear }));
  return path;
}

/** Little CMS (transicc, relative colorimetric, floating point): RGB 0 … 255 through a profile to Lab. */
function littleCmsLab(profile: string): Vector3[] {
  const input = samples.map((rgb) => rgb.join('\n')).join('\n');
  const out = execFileSync('transicc', ['-i', profile, '-o', '*Lab', '-t1', '-n'], {
    input,
    // Its title line.
    stdio: ['pipe', 'pipe', 'ignore'],
  });
  const numbers = out
    .toString()
    .trim()
    .split(/\s+/)
    .map(Number)
    .filter((value) => !Number.isNaN(value));
  return samples.map((_, index) => {
    const [L = Number.NaN, a = Number.NaN, b = Number.NaN] = numbers.slice(3 * index, 3 * index + 3);
    return [L, a, b];
  });
}

function ownLab(name: RgbSpaceName, rgb255: Vector3, linear: boolean): Vector3 {
  const { transfer, toXyz, white } = rgbSpaces[name];
  const [r, g, b] = rgb255.map((code) => (linear ? code / 255 : transfer.decode(code / 255)));
  const xyz = applyMatrix(toXyz, [r ?? 0, g ?? 0, b ?? 0]);
  return xyzToLab(applyMatrix(adaptWhite(xyToXyz(white), d50Xyz), xyz));
}

for (const name of rgbSpaceNames) {
  for (const [version, linear] of [
    [4, false],
    [2, false],
    [4, true],
  ] as const) {
    test(`Little CMS reads the version ${version} profile of ${name}${linear ? ' (linear)' : ''} within 0.1 dE00 of the space`, () => {
      littleCmsLab(profilePath(name, version, linear)).forEach((lab, index) => {
        const rgb = samples[index] ?? [0, 0, 0];
        expect(deltaE2000(lab, ownLab(name, rgb, linear)), rgb.join(' ')).toBeLessThan(0.1);
      });
    });
  }
}

test('ExifTool reads header and tags of both versions without a warning', () => {
  for (const version of [2, 4] as const) {
    const path = profilePath('display-p3', version);
    const [facts] = JSON.parse(execFileSync('exiftool', ['-j', '-G1', '-n', path]).toString());
    expect(facts['ICC-header:ProfileVersion']).toBe(version === 4 ? 0x0440 : 0x0240);
    expect(facts['ICC-header:ProfileClass']).toBe('mntr');
    expect(facts['ICC-header:ProfileConnectionSpace']).toBe('XYZ ');
    expect(facts['ICC_Profile:ProfileDescription']).toBe('Display P3');
    // The columns ICC publishes for Display P3 (as in the profiles of reference/icc), 16 fractional bits.
    expect(facts['ICC_Profile:RedMatrixColumn']).toBe('0.51512 0.2412 -0.00105');
    expect(facts['ICC_Profile:BlueMatrixColumn']).toMatch(/^0\.1571 0\.0665\d 0\.784/);
    expect(JSON.stringify(facts)).not.toMatch(/Warning/);
  }
});

test('equal spaces give equal bytes', () => {
  expect(encodeIccProfile(rgbSpaces.srgb)).toEqual(encodeIccProfile(rgbSpaces.srgb));
});
