import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import type { DecodedRaw } from '../../src/develop/index.ts';
import { sentence } from '../../src/words/index.ts';
import { decodeRaw } from '../../src/workers/decode-raw.ts';
import { librawDecoder } from '../../src/workers/libraw-decoder.ts';
import { type DngOptions, writeDng } from './dng-writer.ts';
import { opcodeList } from './opcode-writer.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-opcodes-'));
afterAll(() => rmSync(folder, { recursive: true }));
const decoder = librawDecoder();
const path = join(folder, 'x.dng');

async function decoded(options: Partial<DngOptions>): Promise<DecodedRaw> {
  const values = Uint16Array.from({ length: 64 * 48 }, (_, at) => 1000 + (at % 64));
  writeFileSync(path, writeDng({ widthPx: 64, heightPx: 48, values, ...options }));
  return decodeRaw(decoder, path, undefined);
}

const warp = { id: 1, long: [1], double: [1, 0.1, 0, 0, 0, 0, 0.5, 0.5] };
const vignette = { id: 3, double: [0.5, 0, 0, 0, 0, 0.5, 0.5] };

test('the corrections of a DNG count in its active area, wherever its crop lies', async () => {
  const opcodes = [null, null, opcodeList([vignette, warp])];
  const { mosaic, issues } = await decoded({
    opcodes,
    activeArea: [2, 4, 46, 64],
    crop: [6, 8, 40, 30],
  });
  expect(issues).toEqual([]);
  expect([mosaic.widthPx, mosaic.heightPx]).toEqual([40, 30]);
  expect(mosaic.lens).toMatchObject({
    area: { widthPx: 60, heightPx: 44 },
    leftPx: 6,
    topPx: 8,
    samples: [],
    steps: [{ kind: 'radial-gain' }, { kind: 'warp' }],
  });
});

test('bad pixels are counted in the stored picture, masked ones among them', async () => {
  const values = Uint16Array.from({ length: 64 * 48 }, () => 1000);
  values[20 * 64 + 30] = 9000;
  const list = opcodeList([{ id: 5, long: [0, 1, 0, 20, 30] }]);
  const { mosaic } = await decoded({ values, opcodes: [list], activeArea: [2, 4, 46, 64] });
  expect([...new Set(mosaic.values)]).toEqual([1000]);
  const untouched = await decoded({ values, activeArea: [2, 4, 46, 64] });
  expect(untouched.mosaic.values[18 * 60 + 26]).toBe(9000);
});

test('bounds that are trimmed are the picture, within its crop', async () => {
  const list = opcodeList([{ id: 6, long: [4, 10, 40, 50] }]);
  const { mosaic } = await decoded({ opcodes: [null, null, list] });
  expect([mosaic.widthPx, mosaic.heightPx]).toEqual([40, 36]);
});

test('steps that must not be left out and are, are told; those that may be are not', async () => {
  const unknown = { id: 10, long: [0, 0, 48, 64, 0, 1, 1, 1, 0] };
  const { issues, mosaic } = await decoded({
    opcodes: [null, opcodeList([unknown, { ...unknown, isOptional: true }])],
  });
  expect(mosaic.lens).toBeUndefined();
  expect(issues.map((issue) => sentence(issue))).toEqual([
    'The file asks for steps that are not carried out here (DNG opcodes 10), so the picture may differ from what its maker meant.',
  ]);
});

test('ExifTool reads the lists that were written', async () => {
  await decoded({ opcodes: [opcodeList([{ id: 4, long: [0, 0] }]), null, opcodeList([warp, vignette])] });
  const [facts] = JSON.parse(execFileSync('exiftool', ['-j', path]).toString());
  expect(facts.OpcodeList1).toBe('FixBadPixelsConstant');
  expect(facts.OpcodeList3).toBe('WarpRectilinear, FixVignetteRadial');
});
