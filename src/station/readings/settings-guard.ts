import type { EpochMs } from '../../base/index.ts';
import type { SettingChange } from '../../facts/index.ts';
import {
  type FrameSettings,
  isOfQuality,
  isSidecar,
  partnerWaitMs,
  settingChanges,
} from '../../judge/index.ts';
import type { FrameRow, Register } from '../../register/index.ts';
import { bracketAround } from './bracket-around.ts';

type Guarded = Pick<
  FrameRow,
  'id' | 'job' | 'camera' | 'orderMs' | 'shutterMs' | 'purpose' | 'capture' | 'kind' | 'files' | 'times'
>;

/**
 * What a frame's camera is set otherwise to than it was for the reference of its shot (null: none). Nothing for what is no
 * picture, for another camera than the reference's, and for a bracket, whose settings differ on purpose.
 */
export async function bumpedSettings(
  register: Pick<Register, 'frame' | 'framesPage'>,
  row: Guarded,
  reference: string | null,
  nowMs: EpochMs,
): Promise<readonly SettingChange[]> {
  if (reference === null || row.purpose !== 'picture' || row.capture === null) return [];
  if (row.capture.inBracket === true) return [];
  const other = await register.frame(reference);
  if (other === null || other.capture === null || other.camera !== row.camera) return [];
  const changes = settingChanges(settingsOf(row, other, nowMs), settingsOf(other, other, nowMs)).filter(
    (change) => isWhole(row) || !isOfQuality(change),
  );
  if (changes.length === 0 || (await bracketAround(register, row)).length > 0) return [];
  return changes;
}

/** While a file arrives its directories may not all be here, and the full picture is taken for a smaller one. */
function isWhole({ files }: Guarded): boolean {
  return files.every(({ path }) => path !== null);
}

/**
 * A JPEG whose raw may still follow says nothing of what the camera sends: where the reference came in several files, it is
 * given as long as a partner has.
 */
function settingsOf(
  { capture, kind, times, files }: Guarded,
  reference: Guarded,
  nowMs: EpochMs,
): FrameSettings {
  const format = formatOf(kind);
  const mayFollow =
    picturesOf(files) < picturesOf(reference.files) && nowMs - (times.keptMs ?? nowMs) < partnerWaitMs;
  return { capture: capture ?? {}, format: mayFollow ? null : format };
}

function picturesOf(files: Guarded['files']): number {
  return files.filter(({ name }) => !isSidecar(name)).length;
}

function formatOf(kind: FrameRow['kind']): FrameSettings['format'] {
  if (kind === 'jpeg') return 'jpeg';
  return kind !== null && rawKinds.has(kind) ? 'raw' : null;
}

/** After `formats`' kinds. */
const rawKinds = new Set(['dng', 'tiff-raw', 'iso-bmff-raw', 'raf']);
