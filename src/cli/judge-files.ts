import type {
  CaptureFacts,
  DriftFromTarget,
  Question,
  ShareBox,
  TargetEdition,
  Verdict,
} from '../facts/index.ts';
import {
  againstReference,
  type FrameSettings,
  judgeColour,
  judgeExposed,
  judgeInPlace,
  judgeSharp,
  noWishes,
  type PlacePlane,
  partReadings,
  partsDrift,
  settingChanges,
  uprightBox,
} from '../judge/index.ts';
import { captureFactsOf } from '../metadata/index.ts';
import { type DevelopPool, type JudgedFile, judgeFile } from '../workers/index.ts';

/** What somebody wants of the files. */
export interface JudgeWishes {
  readonly spot?: ShareBox;
  readonly whiteBackdrop: boolean;
  /** Microseconds. */
  readonly rowTime?: number;
  readonly targetEdition?: TargetEdition;
  readonly toleranceSet?: string;
}

export interface Read {
  readonly file: JudgedFile;
  readonly capture: CaptureFacts;
}

/** The frame that is right; `read` null where it could not be read. */
export interface Reference {
  readonly path: string;
  readonly read: (Read & { readonly plane: PlacePlane }) | null;
}

export interface JudgedRead extends Read {
  readonly verdicts: Readonly<Record<Exclude<Question, 'arrived'>, Verdict>>;
  /** From a reference with a target in it; null where there is none. */
  readonly drift: DriftFromTarget | null;
}

/** Reads the pixels of one file. Rejects as `judgeFile`. */
export async function readFile(
  path: string,
  pool: DevelopPool,
  wanted: JudgeWishes,
  reference: Reference | null,
): Promise<Read> {
  const plane = reference?.read?.plane ?? null;
  const file = await judgeFile(path, pool, (inspection) => {
    const { focusArea, orientation = 1 } = captureFactsOf(inspection, { zoneOffsetMinutes: 0 });
    const wishes = {
      ...noWishes,
      rowTimeS: wanted.rowTime === undefined ? null : wanted.rowTime / 1e6,
      reference: plane === null ? null : { plane, region: null },
      target: { edition: wanted.targetEdition ?? null },
    };
    if (wanted.spot !== undefined) return { ...wishes, spot: { ...wanted.spot, teller: 'given' } };
    if (focusArea === undefined) return wishes;
    return { ...wishes, spot: { ...uprightBox(focusArea, orientation), teller: 'camera' } };
  });
  return { file, capture: captureFactsOf(file.inspection, { zoneOffsetMinutes: 0 }) };
}

/** Rejects as `judgeFile`. */
export async function readReference(
  path: string,
  pool: DevelopPool,
  wanted: JudgeWishes,
): Promise<Reference> {
  const read = await readFile(path, pool, wanted, null);
  const { plane } = await pool.place({ path, kind: read.file.kind });
  return { path, read: { ...read, plane } };
}

/**
 * The four verdicts on a file, held against the reference where there is one. `brackets`: paths of files that are of a bracket,
 * whose settings differ on purpose.
 */
export function heldAgainst(
  read: Read,
  reference: Reference | null,
  wanted: JudgeWishes,
  brackets: ReadonlySet<string> = new Set(),
): JudgedRead {
  const { kept, detail } = partReadings(read.file.readings, null, reference?.path ?? null);
  const other = reference?.read ?? null;
  const theirs = other === null ? null : partReadings(other.file.readings, null, null);
  const against =
    reference === null || other === null || theirs === null
      ? null
      : againstReference(kept, detail, read.capture, {
          frame: reference.path,
          readings: theirs.kept,
          detail: theirs.detail,
          settings: other.capture,
        });
  const drift =
    reference === null || theirs?.kept.colour?.found !== true || theirs.detail.colours === null
      ? null
      : {
          frame: reference.path,
          target: theirs.kept.colour,
          drift: detail.colours === null ? null : partsDrift(theirs.detail.colours, detail.colours, null),
        };
  const shared = { tolerances: {}, previous: null };
  const unread = reference !== null && other === null;
  return {
    ...read,
    drift,
    verdicts: {
      sharp: judgeSharp({ ...shared, reading: kept.sharp, reference: against?.sharp ?? null }),
      exposed: judgeExposed({
        ...shared,
        reading: kept.exposed,
        fromReference: against?.light ?? null,
        referenceStriped: against?.striped ?? null,
        trend: null,
        whiteBackdrop: wanted.whiteBackdrop,
        shift: kept.place.shift,
        settings:
          other === null || isMeant(read, brackets)
            ? []
            : settingChanges(settingsOf(read), settingsOf(other)),
      }),
      inPlace: withoutShot(
        judgeInPlace({
          ...shared,
          reading: unread ? { ...kept.place, shift: { unknown: 'reference-unread' } } : kept.place,
          against: reference === null ? 'nothing' : 'reference',
          mmPerPx: null,
          lightSpreadEv: against?.light?.spreadEv ?? 0,
        }),
      ),
      colour: judgeColour({
        ...shared,
        reading: kept.colour,
        source: kept.exposed.source,
        // With nothing else to speak for its colours, it is asked for its target.
        isTarget: drift === null,
        notYet: false,
        toleranceSet: wanted.toleranceSet ?? null,
        drift,
      }),
    },
  };
}

function isMeant({ file, capture }: Read, brackets: ReadonlySet<string>): boolean {
  return capture.inBracket === true || brackets.has(file.path);
}

function settingsOf({ file: { kind, inspection }, capture }: Read): FrameSettings {
  if (kind === 'raw') return { capture, format: 'raw' };
  return { capture, format: inspection.kind === 'jpeg' ? 'jpeg' : null };
}

/** There is no shot here that could have a reference: it is the command that was given none. */
function withoutShot(verdict: Verdict): Verdict {
  const [lead, ...rest] = verdict.findings;
  if (lead.code !== 'place.no-reference') return verdict;
  return { ...verdict, findings: [{ code: 'place.none-given', args: {} }, ...rest] };
}
