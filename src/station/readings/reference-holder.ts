import type {
  AgainstReference,
  CountedTarget,
  DeliveredColour,
  DriftFromTarget,
  KeptReadings,
} from '../../facts/index.ts';
import { againstReference, partsDrift, underProfile } from '../../judge/index.ts';
import type { FrameRow, Register } from '../../register/index.ts';
import type { BalancedOn } from '../target-balance.ts';
import type { FrameLimits } from './frame-limits.ts';

/** What a frame is to be held against. */
export type HeldAgainst = Pick<FrameLimits, 'reference' | 'counted' | 'balance'>;

type Looked = Pick<Register, 'frame' | 'readingDetail' | 'upsertFacts'>;

/**
 * Holds frames against the frame of their shot and the target that counts: once for each pair, and anew where a person has
 * chosen another. What comes out is kept with the frame's readings.
 */
export class ReferenceHolder {
  readonly #register: Looked;

  constructor(register: Looked) {
    this.#register = register;
  }

  /** The row, held against these (null: against none). */
  async hold(row: FrameRow, { reference, counted, balance }: HeldAgainst): Promise<FrameRow> {
    const { readings } = row;
    if (readings === null) return row;
    const against = await this.#heldAgainst(row, readings, reference);
    const drift = await this.#driftFrom(row, readings, counted);
    const delivered = await this.#delivered(row, readings, balance);
    if (
      against === readings.against &&
      drift === readings.drift &&
      delivered === (readings.delivered ?? null)
    )
      return row;
    const held = { ...readings, against, drift, delivered };
    await this.#register.upsertFacts(row.id, { readings: held });
    // It has one version more, which whoever reads it next shall see.
    return { ...row, readings: held, version: row.version + 1 };
  }

  /**
   * What is known already where it is of this reference as that is read now: a person may have pointed out another spot on
   * it. What cannot be held yet is tried again the next time.
   */
  async #heldAgainst(
    row: FrameRow,
    readings: KeptReadings,
    reference: string | null,
  ): Promise<AgainstReference | null> {
    if (reference === null) return null;
    const known = readings.against?.frame === reference ? readings.against : null;
    const other = await this.#register.frame(reference);
    if (other === null || other.readings === null) return known;
    if (known !== null && saysTheSame(known, readings, other.readings)) return known;
    return (await this.#against(row, readings, other, other.readings)) ?? known;
  }

  /** What its target says as it is rendered: once for each target that counts. */
  async #delivered(
    row: FrameRow,
    { colour, delivered = null }: KeptReadings,
    balance: BalancedOn | null,
  ): Promise<DeliveredColour | null> {
    if (balance === null || colour?.found !== true || colour.source !== 'raw') return null;
    const { frame, hash, profile } = balance;
    if (delivered?.frame === frame && delivered.hash === hash) return delivered;
    if (frame === row.id) return deliveredByItself(balance);
    const { patches = null, colours = null } = (await this.#register.readingDetail(row.id)) ?? {};
    if (patches === null || colours === null) return null;
    const told = underProfile({ patches, edition: colour.edition }, colours.multipliers, profile);
    return told === null ? null : { frame, hash, own: false, ...told };
  }

  async #driftFrom(
    row: FrameRow,
    readings: KeptReadings,
    counted: CountedTarget | null,
  ): Promise<DriftFromTarget | null> {
    if ((readings.drift?.frame ?? null) === (counted?.frame ?? null)) return readings.drift;
    return counted === null ? null : this.#drift(row, readings, counted);
  }

  /** Null while one of the two is only known from its preview, or not at all. */
  async #drift(
    row: FrameRow,
    readings: KeptReadings,
    { frame }: CountedTarget,
  ): Promise<DriftFromTarget | null> {
    const other = await this.#register.frame(frame);
    if (other === null || other.readings === null) return null;
    if (readings.exposed.source === 'preview' || other.readings.exposed.source === 'preview') return null;
    const [own, theirs] = await Promise.all([
      this.#register.readingDetail(row.id),
      this.#register.readingDetail(frame),
    ]);
    if (own?.colours == null || theirs?.colours == null) return null;
    return { frame, target: other.readings.colour, drift: partsDrift(theirs.colours, own.colours, null) };
  }

  /** Null while one of the two is only known from its preview, or not at all. */
  async #against(
    row: FrameRow,
    readings: KeptReadings,
    { id: reference, capture }: FrameRow,
    theirReadings: KeptReadings,
  ): Promise<AgainstReference | null> {
    if (readings.exposed.source === 'preview' || theirReadings.exposed.source === 'preview') return null;
    const [own, theirs] = await Promise.all([
      this.#register.readingDetail(row.id),
      this.#register.readingDetail(reference),
    ]);
    if (own === null || theirs === null) return null;
    return againstReference(readings, own, row.capture, {
      frame: reference,
      readings: theirReadings,
      detail: theirs,
      settings: capture,
    });
  }
}

/** A target that renders its own frame says nothing but what each patch is by a profile made without it. */
export function deliveredByItself({ frame, hash, profile }: BalancedOn): DeliveredColour {
  return { frame, hash, own: true, colour: profile.leaveOneOut, flat: null, greys: null };
}

/** Whether the reference's sharpness, which it keeps, is still what is read of the reference. */
function saysTheSame(
  { sharp }: AgainstReference,
  own: KeptReadings,
  { sharp: theirs }: KeptReadings,
): boolean {
  const atSpot = own.sharp.source === theirs.source ? theirs.atSpot : null;
  return (
    JSON.stringify([sharp.source, sharp.blur, sharp.atSpot]) ===
    JSON.stringify([theirs.source, theirs.blur, atSpot])
  );
}
