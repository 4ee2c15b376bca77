import { encodeLine, LineCutter, parseLine } from '../../../src/keep/core/journal-line.ts';
import { crc32c } from '../../../src/keep/core/kernels/crc32c.ts';
import type { JournalRecord } from '../../../src/keep/core/records.ts';
import { segmentFileName } from '../../../src/keep/core/segment-name.ts';
import { simulatedDisk } from '../../../src/keep/testing/simulated-disk.ts';
import {
  fromStart,
  home,
  openSimulatedHome,
  recordsOf,
  sized,
} from '../../../src/keep/testing/simulated-home.ts';
import { type FuzzTarget, insist } from '../target.ts';

/**
 * A journal as it may lie on a failing disk: the reader, and the start of a whole home from it. An odd first byte asks
 * for checksums that fit, so that what stands behind them is tried too.
 */
export async function journalTarget(): Promise<FuzzTarget> {
  const lines = await realLines();
  return {
    name: 'journal',
    seeds: () => [0, 1].map((first) => Uint8Array.from([first, ...lines.flatMap((line) => [...line])])),
    words: [...lines, ...fieldWords.map((word) => new TextEncoder().encode(word))],
    inputBytesMax: 64 * 1024,
    run: async (input) => {
      const bytes = (input[0] ?? 0) % 2 === 1 ? resealed(input.subarray(1)) : input.subarray(1);
      readsInPieces(bytes);
      await starts(bytes);
    },
  };
}

const fieldWords = [
  '"seq":',
  '"group":',
  '"type":"kept"',
  '"type":"renamed"',
  '"type":"announced"',
  '"from":"/"',
  '"to":"/a/b"',
  '"arrival":null',
  '"v":2',
  '-1',
  '1e308',
  '9007199254740993',
  'null',
  '[]',
  '{}',
  '"__proto__"',
  '\n',
];

/** The records of a camera's short day, as the writer wrote them. */
async function realLines(): Promise<Uint8Array[]> {
  const { keep } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  await folder.makeFolder('/d');
  for (const [name, bytes, end] of [
    ['/d/a.dng', sized(300), 'closed'],
    ['/cut.dng', sized(300).subarray(0, 200), 'reset'],
    ['/cut.dng', sized(300), 'closed'],
    ['/gone.dng', sized(50), 'closed'],
    ['/again.dng', sized(50), 'closed'],
    ['/again.dng', sized(50), 'closed'],
  ] as const) {
    const arrival = await folder.open(name, fromStart);
    await arrival.write(bytes.slice());
    await arrival.finish(end);
  }
  await folder.rename('/d/a.dng', '/d/b.dng');
  await folder.setModified('/d/b.dng', 1000);
  await folder.hide('/gone.dng');
  await folder.makeFolder('/e');
  await folder.removeFolder('/e');
  const lines = (await recordsOf(keep)).map(encodeLine);
  await keep.close();
  return lines;
}

/** Lines as they are, each with the length and the checksum that its body has. */
function resealed(bytes: Uint8Array): Uint8Array {
  const text = Buffer.from(bytes).toString('latin1');
  return Buffer.concat(
    text.split('\n').map((line) => {
      const body = Buffer.from(line.replace(/^[0-9a-f]{8} \d+ /, ''), 'latin1');
      const crc = crc32c(body).toString(16).padStart(8, '0');
      return Buffer.concat([Buffer.from(`${crc} ${body.length} `), body, Buffer.from('\n')]);
    }),
  );
}

/** However the bytes are cut, the lines are the same; and each good one is what the writer would write. */
function readsInPieces(bytes: Uint8Array): void {
  const whole = new LineCutter().push(bytes);
  const cutter = new LineCutter();
  const pieces = [];
  for (let at = 0; at < bytes.length; at += 7) pieces.push(...cutter.push(bytes.subarray(at, at + 7)));
  insist(JSON.stringify(pieces) === JSON.stringify(whole), 'lines depend on how the bytes were cut');
  for (const reading of whole) {
    if (reading.kind !== 'record') continue;
    const again = parseLine(encodeLine(reading.record).subarray(0, -1));
    insist(again.kind === 'record', 'a record that was read cannot be written');
  }
}

/** A home starts from whatever lies there, or says that a newer program wrote it; and takes a file then. */
async function starts(bytes: Uint8Array): Promise<void> {
  const disk = simulatedDisk();
  disk.put(`${home}/journal/${segmentFileName({ ordinal: 1, firstSeq: 1 })}`, bytes);
  const opened = await openSimulatedHome(disk).catch((trouble: unknown) => {
    insist(codeOf(trouble) === 'journal-newer', `the start ended in ${String(trouble)}`);
    return null;
  });
  if (opened === null) return;
  const { keep } = opened;
  insistRising(await recordsOf(keep));
  await walk(keep.folderOf('cam1'), '/', 0);
  const arrival = await keep.folderOf('fuzz').open('/new.dng', fromStart);
  await arrival.write(sized(60));
  const { kind } = await arrival.finish('closed');
  insist(kind === 'kept', `after that start a new file is ${kind}`);
  await keep.close();
}

function insistRising(records: readonly JournalRecord[]): void {
  for (const [at, { seq }] of records.entries()) {
    insist(at === 0 || seq > (records[at - 1]?.seq ?? 0), 'records come twice or out of order');
  }
}

interface Lister {
  list(path: string): Promise<readonly { readonly name: string; readonly kind: string }[]>;
}

async function walk(folder: Lister, path: string, depth: number): Promise<void> {
  insist(depth < 100, 'the folder is bottomless');
  for (const { name, kind } of await folder.list(path)) {
    if (kind === 'folder') await walk(folder, `${path === '/' ? '' : path}/${name}`, depth + 1);
  }
}

function codeOf(trouble: unknown): unknown {
  return typeof trouble === 'object' && trouble !== null && 'code' in trouble ? trouble.code : null;
}
