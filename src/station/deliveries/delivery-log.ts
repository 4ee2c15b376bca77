import { appendFile, open, readFile } from 'node:fs/promises';
import { z } from 'zod';
import { errorCode } from '../../base/index.ts';
import {
  type ManifestGap,
  type ManifestLine,
  type MetadataSheet,
  metadataSheetSchema,
  type NameValues,
  placeholders,
  type Specification,
  specificationSchema,
  type WordsFrame,
  wordFields,
} from '../../deliver/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { Json } from '../../look/index.ts';
import type { Proof } from '../../send/index.ts';

export type Asked = Readonly<Record<string, Json>>;

/** What is to be made: settled when a delivery begins, so that going on after a crash makes the same names. */
export interface DeliveryOrder {
  readonly id: string;
  readonly job: string;
  /** Name of its folder. */
  readonly folder: string;
  readonly startedMs: number;
  readonly specification: Specification;
  /**
   * The same as it was written when the delivery began: an earlier edition knew fewer members, and its hash, which manifests and
   * people hold, is of those. What was absent stays absent here.
   */
  readonly asked: Asked;
  /** What is said of the pictures; null where nobody said anything. */
  readonly sheet: MetadataSheet | null;
  /** By which files are named; null in a delivery that an earlier edition began. */
  readonly template: string | null;
  readonly frames: readonly OrderedFrame[];
}

export interface OrderedFrame {
  readonly frame: string;
  /** Name of the file, as it was known when the delivery began; a number in it is settled when the file is made (`nameWhenMade`). */
  readonly file: string;
  /** What its words are filled in with; null in a delivery that an earlier edition began. */
  readonly known: WordsFrame | null;
  /** What its name is filled in with; null likewise. */
  readonly naming: NameValues | null;
}

export interface SentFile {
  readonly file: string;
  readonly where: string;
  readonly proof: Proof;
}

export interface NotSent {
  readonly file: string;
  readonly finding: Finding;
}

export type DeliveryEntry =
  | { readonly made: ManifestLine }
  | { readonly gap: ManifestGap }
  /** It lies at the destination, and was compared there. */
  | { readonly sent: SentFile }
  | { readonly notSent: NotSent }
  /** Somebody said that nothing more is to be done about its gaps, or that it is after all. */
  | { readonly gapsLeft: boolean; readonly atMs: number }
  /** What a destination needs to go on with a file that it has a part of. */
  | { readonly upload: { readonly file: string; readonly token: string } }
  | {
      readonly state: 'running' | 'paused' | 'aborted' | 'done';
      readonly atMs: number;
      /** Why it waits; null where a person asked for it. */
      readonly finding: Finding | null;
    };

const finding = z.object({ code: z.string(), args: z.record(z.string(), z.union([z.string(), z.number()])) });
const known = z.object({
  id: z.string(),
  shot: z.string().nullable(),
  values: z.record(z.enum(wordFields), z.string().nullable()),
  createdAt: z.string().nullable(),
});
const order = z.object({
  id: z.string(),
  job: z.string(),
  folder: z.string(),
  startedMs: z.number(),
  specification: specificationSchema,
  asked: z.record(z.string(), z.json()),
  sheet: metadataSheetSchema.nullable().default(null),
  template: z.string().nullable().default(null),
  frames: z.array(
    z.object({
      frame: z.string(),
      file: z.string(),
      known: known.nullable().default(null),
      naming: z.record(z.enum(placeholders), z.string().nullable()).nullable().default(null),
    }),
  ),
});
const made = z.object({
  file: z.string(),
  sha256: z.string(),
  bytes: z.number(),
  widthPx: z.number(),
  heightPx: z.number(),
  frame: z.string(),
  shot: z.string(),
  original: z.string(),
  originalSha256: z.string(),
  look: z.string(),
  lookSha256: z.string(),
  findings: z.array(finding),
});
const entry = z.union([
  z.object({ made }),
  z.object({ gap: z.object({ frame: z.string(), original: z.string(), finding }) }),
  z.object({
    sent: z.object({ file: z.string(), where: z.string(), proof: z.enum(['read-back', 'checksum', 'size']) }),
  }),
  z.object({ notSent: z.object({ file: z.string(), finding }) }),
  z.object({ gapsLeft: z.boolean(), atMs: z.number() }),
  z.object({ upload: z.object({ file: z.string(), token: z.string() }) }),
  z.object({
    state: z.enum(['running', 'paused', 'aborted', 'done']),
    atMs: z.number(),
    finding: finding.nullable().default(null),
  }),
]);

/**
 * How far a delivery is, beside its folder: a line of JSON for the order, then one for each thing that happened. Only ever
 * appended to; a line that a crash cut off counts for nothing, and its file is made again.
 */
export class DeliveryLog {
  readonly #path: string;
  /** One line after the other: what was decided last stands last. */
  #before: Promise<void> = Promise.resolve();

  constructor(path: string) {
    this.#path = path;
  }

  /** Durable when it settles. Rejects with the system's own. */
  async begin({ asked, ...begun }: DeliveryOrder): Promise<void> {
    const file = await open(this.#path, 'wx');
    try {
      await file.writeFile(`${JSON.stringify({ ...begun, specification: asked })}\n`);
      await file.sync();
    } finally {
      await file.close();
    }
  }

  /** Durable when it settles: what a line calls made was synced before. Rejects with the system's own. */
  append(what: DeliveryEntry): Promise<void> {
    const done = this.#before.then(() => this.#write(what));
    this.#before = done.catch(() => {});
    return done;
  }

  async #write(what: DeliveryEntry): Promise<void> {
    const file = await open(this.#path, 'a');
    try {
      await file.appendFile(`${JSON.stringify(what)}\n`);
      await file.datasync();
    } finally {
      await file.close();
    }
  }

  /** Null where nothing can be told of it. A torn end is closed, so that the next line stands by itself. */
  async read(): Promise<DeliveryTold | null> {
    const told = await readDeliveryLog(this.#path);
    if (told?.isTorn === true) await appendFile(this.#path, '\n');
    return told;
  }
}

export interface DeliveryTold {
  readonly order: DeliveryOrder;
  readonly entries: readonly DeliveryEntry[];
  /** A crash cut its last line off. */
  readonly isTorn: boolean;
}

/** What a log tells, read beside whoever writes it. Null where nothing can be told. Rejects with the system's own. */
export async function readDeliveryLog(path: string): Promise<DeliveryTold | null> {
  const text = await readFile(path, 'utf8').catch((thrown: unknown) => {
    if (errorCode(thrown) === 'ENOENT') return '';
    throw thrown;
  });
  const [first = '', ...rest] = text.split('\n');
  const begun = order.safeParse(withAsked(parsed(first)));
  if (!begun.success) return null;
  const entries = rest.flatMap((line): readonly DeliveryEntry[] => {
    const read = entry.safeParse(parsed(line));
    return read.success ? [read.data] : [];
  });
  return { order: begun.data, entries, isTorn: !text.endsWith('\n') };
}

/** The document before members that it lacks get the values they have by themselves. */
function withAsked(line: unknown): unknown {
  return typeof line === 'object' && line !== null && 'specification' in line
    ? { ...line, asked: line.specification }
    : line;
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return null;
  }
}
