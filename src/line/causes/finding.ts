import type { Finding } from '../../facts/index.ts';
import type { CauseCode, Cure, LineFinding, LineWeight, Sureness } from '../shapes.ts';

type Args = Finding['args'];

/** A finding in one piece; what is left out is nobody's, and has no evidence or cure. */
export function found(
  [code, weight, sure]: readonly [CauseCode, LineWeight, Sureness],
  args: Args,
  rest: {
    readonly camera?: string | null;
    readonly evidence?: readonly (Finding | null)[];
    readonly cures?: readonly (Cure | null)[];
  } = {},
): LineFinding {
  const camera = rest.camera ?? null;
  return {
    code,
    weight,
    sure,
    camera,
    cause: { code, args: camera === null ? args : { ...args, camera } },
    evidence: (rest.evidence ?? []).filter((each) => each !== null),
    cures: (rest.cures ?? []).filter((each) => each !== null),
  };
}

export function seen(what: string, args: Args = {}): Finding {
  return { code: `line-seen.${what}`, args };
}

export function cure(at: Cure['at'], what: string, args: Args = {}, commands: readonly string[] = []): Cure {
  return { at, finding: { code: `line-cure.${what}`, args }, commands };
}
