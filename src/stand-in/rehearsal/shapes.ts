import type { Finding } from '../../facts/index.ts';
import type { RehearsalStep } from '../core/rehearsal-cause.ts';
import type { Secure } from '../ftp-camera.ts';

export interface RehearsalOptions {
  readonly host: string;
  readonly port: number;
  readonly user: string;
  readonly password: string;
  readonly protocol: 'ftp' | 'sftp';
  readonly secure: Secure;
  /** Fingerprints of the camera sheet, one of which an SFTP door must have: `SHA256:…`; none: any is taken, and told. */
  readonly hostKeys: readonly string[];
  readonly signal: AbortSignal;
  /** How long each step may take before it counts as shut; default 8000: cameras wait 10 to 30 s (common practice, no source). */
  readonly stepMs?: number;
  /** Hears of each step as it ends. */
  readonly onStep: (step: StepOutcome) => void;
}

/** One step: what was seen, or why it failed. */
export interface StepOutcome {
  readonly step: RehearsalStep;
  readonly ok: boolean;
  readonly ms: number;
  readonly finding: Finding;
}

export interface RehearsalReport {
  readonly ok: boolean;
  readonly steps: readonly StepOutcome[];
  /** What is different from a camera here, and what follows for it. */
  readonly differences: readonly Finding[];
}

/** What one step found; `local` and `remote` where a connection stands. */
export interface Seen {
  readonly code: string;
  readonly args: Finding['args'];
}

/** One way in, step by step. A step rejects with what went wrong. */
export interface Walker {
  readonly steps: readonly (readonly [RehearsalStep, () => Promise<Seen>])[];
  ends(): {
    readonly local: string;
    readonly remote: string;
    readonly told: string | null;
    /** Of the door, where nobody said which it has to be. */
    readonly hostKey: string | null;
  };
  close(): void;
}
