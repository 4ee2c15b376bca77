import { SetsideError } from '../base/index.ts';

interface Named {
  readonly id: string;
  readonly name: string;
  readonly camera: string;
}

/**
 * The one frame of a job that these words mean: its id, or its name with or without the extension, in any case. Words that
 * mean several mean none of them. Rejects `no-frame`, `several-frames`.
 */
export function frameNamed<Of extends Named>(code: string, frames: readonly Of[], words: string): Of {
  const wanted = words.toLowerCase();
  const meant = frames.filter(({ id, name }) => {
    const lower = name.toLowerCase();
    return id === words || lower === wanted || lower.replace(/(?<=.)\.[^.]{1,5}$/, '') === wanted;
  });
  const [frame] = meant;
  if (frame === undefined) {
    throw new SetsideError('no-frame', `Job ${code} has no frame ${words}`, {
      cure: 'Say its name as it stands under the picture, such as QMST0018; frames of the tray belong to no job.',
    });
  }
  if (meant.length === 1) return frame;
  const ids = meant.map(({ id, camera }) => `${id} (${camera})`);
  throw new SetsideError('several-frames', `${meant.length} frames of job ${code} are meant by ${words}`, {
    cure: `Say which: ${ids.join(', ')}.`,
  });
}
