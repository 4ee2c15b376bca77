import { randomUUID } from 'node:crypto';
import { link, mkdir, mkdtemp, readdir, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import sharp from 'sharp';
import { FtpSender } from './ftp-sender.ts';
import { journalLine } from './journal-line.ts';
import { type BenchStation, startBenchStation } from './station.ts';

/** The job of {@link homeOfMany} and its shots: invented. */
export const manyJob = 'QM-LONG';
const shotsMax = 40;
const things = ['Mug', 'Jug', 'Bowl', 'Plate', 'Teapot', 'Vase', 'Dish', 'Cup'];
const glazes = ['ash', 'slate', 'celadon', 'oxide', 'chalk'];
/** Pictures that really come in by FTP; all others are more frames of the same bytes. */
export const picturesMax = 16;
const betweenMs = 12_000;
const recordsPerGroup = 400;

/**
 * A home with so many finished frames, in seconds instead of hours: a station takes in a few pictures, develops and reads
 * them; then its journal is written on (`src/keep/JOURNAL.md`) with more frames of the same bytes, each original a link, and
 * what was found out about each picture is noted for them too. The next start takes them all into its register.
 */
export async function homeOfMany(frames: number, say: (line: string) => void = () => {}): Promise<string> {
  const home = await mkdtemp(join(tmpdir(), 'setside-many-'));
  const station = await startBenchStation(home);
  try {
    await makeJob(station);
    await sendPictures(station);
  } finally {
    await station.stop();
  }
  say(`${picturesMax} pictures are read; ${frames} frames of them are made`);
  await multiply(home, frames);
  return home;
}

async function makeJob(station: BenchStation): Promise<void> {
  await call(station, 'POST', '/api/v1/jobs', {
    code: manyJob,
    title: 'Autumn catalogue, the long one',
    client: 'Quillmere Ceramics',
    open: true,
  });
  for (let at = 0; at < shotsMax; at += 1) {
    const name = `${things[at % things.length]}, ${glazes[Math.floor(at / things.length) % glazes.length]}`;
    await call(station, 'POST', `/api/v1/jobs/${manyJob}/shots`, { name });
  }
}

async function call(station: BenchStation, method: string, path: string, body: object): Promise<void> {
  const answer = await fetch(`${station.web}${path}`, {
    method,
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
}

async function sendPictures(station: BenchStation): Promise<void> {
  const sender = await FtpSender.open(station);
  for (let at = 0; at < picturesMax; at += 1) {
    await sender.store(
      `SEED${String(at + 1).padStart(4, '0')}.JPG`,
      await drawnPicture(at),
      Number.POSITIVE_INFINITY,
    );
  }
  sender.close();
  for (;;) {
    const answer = await fetch(`${station.web}/api/v1/frames?limit=100`);
    const { frames }: { frames: { times: { judged: string | null } }[] } = JSON.parse(await answer.text());
    if (frames.length === picturesMax && frames.every(({ times }) => times.judged !== null)) return;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
}

/** A pot on a sweep, every fourth of them soft, some upright: nobody's photograph. */
export async function drawnPicture(at: number): Promise<Buffer> {
  const hue = (at * 67) % 360;
  const upright = at % 5 === 4;
  const [width, height] = upright ? [800, 1200] : [1200, 800];
  const x = 380 + ((at * 53) % 420);
  const drawn = sharp(
    Buffer.from(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1500 1000" width="1500" height="1000" preserveAspectRatio="none">
      <rect width="1500" height="1000" fill="#dcdcd8"/><rect y="620" width="1500" height="380" fill="#c2c2bd"/>
      <ellipse cx="${x + 140}" cy="800" rx="230" ry="34" fill="#8c8c88"/>
      <path d="M${x} 330h280l-34 470h-212z" fill="hsl(${hue},38%,46%)"/>
      <path d="M${x + 40} 330h60l-20 470h-40z" fill="hsl(${hue},38%,66%)"/>
      <ellipse cx="${x + 140}" cy="330" rx="140" ry="26" fill="hsl(${hue},38%,28%)"/>
    </svg>`),
  ).resize(width, height, { fit: 'fill' });
  return (at % 4 === 3 ? drawn.blur(5) : drawn).jpeg({ quality: 90 }).toBuffer();
}

/** One line of the journal as this file reads and writes it. */
type Line = Record<string, unknown> & { readonly type: string };

async function multiply(home: string, frames: number): Promise<void> {
  const before = await journalOf(home);
  const seeds = before.filter(({ type }) => type === 'kept');
  const shots = before.flatMap(({ type, shot }) => (type === 'shot-stated' && isShot(shot) ? [shot.id] : []));
  const first = Date.now() - frames * betweenMs - 3_600_000;
  const lines: Line[] = [];
  const facts = new Database(join(home, 'setside.db'));
  const columns = facts
    .prepare<[], { name: string }>("select name from pragma_table_info('frame_facts')")
    .all()
    .map(({ name }) => name)
    .filter((name) => name !== 'frame');
  const copy = facts.prepare(
    `insert into frame_facts (frame, ${columns.join(', ')}) select ?, ${columns.join(', ')} from frame_facts where frame = ?`,
  );
  facts.exec('begin');
  for (let at = 0; at < frames; at += 1) {
    const seed = seeds[at % seeds.length];
    if (seed === undefined) throw new Error('expected frames that were kept, found none');
    const made = frameLike(seed, at, first + at * betweenMs, shots[Math.floor((at * shots.length) / frames)]);
    lines.push(...made.lines);
    copy.run(made.frame, seed.frame);
    await mkdir(dirname(join(home, made.original)), { recursive: true });
    await link(join(home, String(seed.original)), join(home, made.original));
  }
  facts.exec('commit');
  facts.close();
  await writeJournal(home, before.length, lines);
}

function isShot(value: unknown): value is { id: string } {
  return typeof value === 'object' && value !== null && 'id' in value && typeof value.id === 'string';
}

function frameLike(
  seed: Line,
  at: number,
  atMs: number,
  shot: string | undefined,
): { frame: string; original: string; lines: Line[] } {
  const [arrival, frame] = [randomUUID(), randomUUID()];
  const camera = String(seed.camera);
  const counter = (at % 9999) + 1;
  const name = `QMKA${String(counter).padStart(4, '0')}.JPG`;
  const path = `/DCIM/${100 + Math.floor(at / 999)}QUILL/${name}`;
  const original = `jobs/${manyJob}/originals/${camera}${path}`;
  const of = { arrival, frame, job: manyJob, camera, path };
  const lines: Line[] = [
    {
      v: 1,
      atMs,
      type: 'announced',
      ...of,
      incoming: `${arrival}-${name}`,
      via: 'ftp',
      announcedBytes: null,
      prefixOf: null,
      prefixBytes: 0,
      over: null,
    },
    {
      ...seed,
      v: 1,
      atMs: atMs + 900,
      ...of,
      name,
      original,
      firstByteMs: atMs + 100,
      lastByteMs: atMs + 800,
    },
  ];
  if (shot !== undefined) lines.push({ v: 3, atMs, type: 'shot-followed', frame, shot, by: 'arrival' });
  const mark = markFor(at);
  if (mark !== null) lines.push({ v: 1, atMs: atMs + 4000, type: 'mark-set', frame, mark });
  return { frame, original, lines };
}

/** As a day's choice comes out: few heroes, some selects, more that are out. */
function markFor(at: number): string | null {
  if (at % 487 === 11) return 'hero';
  if (at % 31 === 4) return 'select';
  if (at % 47 === 9) return 'alternate';
  return at % 13 === 6 ? 'out' : null;
}

async function journalOf(home: string): Promise<Line[]> {
  const folder = join(home, 'journal');
  const lines: Line[] = [];
  for (const segment of (await readdir(folder)).sort()) {
    const text = await readFile(join(folder, segment), 'utf8');
    for (const line of text.split('\n')) {
      if (line !== '') lines.push(JSON.parse(line.slice(line.indexOf('{'))) as Line);
    }
  }
  return lines;
}

/** Written on in the last segment. */
async function writeJournal(home: string, seq: number, lines: readonly Line[]): Promise<void> {
  const folder = join(home, 'journal');
  const last = (await readdir(folder)).sort().at(-1);
  if (last === undefined) throw new Error(`expected a journal in ${basename(home)}, found none`);
  const parts: Buffer[] = [];
  lines.forEach((line, index) => {
    const own = seq + index + 1;
    const group = seq + index - (index % recordsPerGroup) + 1;
    const { v, atMs, ...rest } = line;
    parts.push(journalLine({ ...rest, v, seq: own, group, atMs }));
  });
  await writeFile(join(folder, last), Buffer.concat(parts), { flag: 'a' });
}
