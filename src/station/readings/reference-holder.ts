import type { AgainstReference, KeptReadings } from '../../facts/index.ts';
import { againstReference } from '../../judge/index.ts';
import type { FrameRow, Register } from '../../register/index.ts';

type Looked = Pick<Register, 'frame' | 'readingDetail' | 'upsertFacts'>;

/**
 * Holds frames against the frame of their shot: once for each pair, and anew where a person has chosen another. What comes
 * out is kept with the frame's readings.
 */
export class ReferenceHolder {
  readonly #register: Looked;

  constructor(register: Looked) {
    this.#register = register;
  }

  /** The row, held against this frame (null: against none). */
  async hold(row: FrameRow, reference: string | null): Promise<FrameRow> {
    const { readings } = row;
    if (readings === null || (readings.against?.frame ?? null) === reference) return row;
    const against = reference === null ? null : await this.#against(row, readings, reference);
    if (against === null && reference !== null) return { ...row, readings: { ...readings, against } };
    const held = { ...readings, against };
    await this.#register.upsertFacts(row.id, { readings: held });
    // It has one version more, which whoever reads it next shall see.
    return { ...row, readings: held, version: row.version + 1 };
  }

  /** Null while one of the two is only known from its preview, or not at all. */
  async #against(row: FrameRow, readings: KeptReadings, reference: string): Promise<AgainstReference | null> {
    const other = await this.#register.frame(reference);
    if (other === null || other.readings === null) return null;
    if (readings.exposed.source === 'preview' || other.readings.exposed.source === 'preview') return null;
    const [own, theirs] = await Promise.all([
      this.#register.readingDetail(row.id),
      this.#register.readingDetail(reference),
    ]);
    if (own === null || theirs === null) return null;
    return againstReference(readings, own.light, row.capture, {
      frame: reference,
      readings: other.readings,
      light: theirs.light,
      settings: other.capture,
    });
  }
}
