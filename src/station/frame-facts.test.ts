import { expect, test } from 'vitest';
import { inspect, sourceOfBytes } from '../formats/index.ts';
import type { MetadataReader } from '../metadata/index.ts';
import { factsOfFile } from './frame-facts.ts';

const unknown = inspect(sourceOfBytes(new Uint8Array(600).fill(1)));

/** A reader that tells what it was asked about. */
function asked(): { reader: MetadataReader; paths: string[] } {
  const paths: string[] = [];
  const reader: MetadataReader = {
    readFacts: async (path) => {
      paths.push(path);
      return {};
    },
    readFocusRegion: async () => null,
    readRating: async () => null,
    readSidecar: async () => ({}),
    extractPreview: async () => null,
    close: async () => {},
  };
  return { reader, paths };
}

test.each(['INDEX.BDM', 'AUTPRINT.MRK', 'm0100.ctg', 'INDEX.DAT'])(
  'of %s, which is no picture by content or name, nobody is asked',
  async (name) => {
    const { reader, paths } = asked();
    expect(await factsOfFile(`/card/${name}`, unknown, reader, 0)).toEqual({ kind: 'unknown', capture: {} });
    expect(paths).toEqual([]);
  },
);

test.each(['A001.MOV', 'DSCF0001.NEW', 'frame'])(
  'of %s, which may be a film or a raw that is not known, the reader is asked',
  async (name) => {
    const { reader, paths } = asked();
    await factsOfFile(`/card/${name}`, unknown, reader, 0);
    expect(paths).toEqual([`/card/${name}`]);
  },
);
