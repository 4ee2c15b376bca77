import type { Finding } from '../facts/index.ts';

/** What lies in a bag's folder, by name: paths below it, with `/`. Links are named apart and never followed. */
export interface BagListing {
  readonly files: ReadonlyMap<string, { readonly bytes: number }>;
  readonly folders: ReadonlySet<string>;
  /** Links, pipes, devices: whatever is neither a file nor a folder. */
  readonly others: readonly string[];
}

/** `bad`: the bag is not valid. `warning`: it is, and somebody should know. */
export type BagWeight = 'bad' | 'warning';

export interface BagFinding {
  readonly weight: BagWeight;
  readonly finding: Finding;
}

/** One checksum that a manifest claims for a file that is there. */
export interface Claim {
  readonly path: string;
  readonly algorithm: Algorithm;
  /** Hexadecimal, small letters. */
  readonly checksum: string;
  /** Name of the manifest that says so. */
  readonly manifest: string;
}

/** Those RFC 8493, section 2.4, names, and the rest of the same families. */
export const algorithms = ['md5', 'sha1', 'sha224', 'sha256', 'sha384', 'sha512'] as const;
export type Algorithm = (typeof algorithms)[number];

/** Letters of a checksum in hexadecimal. */
export const checksumLetters: Readonly<Record<Algorithm, number>> = {
  md5: 32,
  sha1: 40,
  sha224: 56,
  sha256: 64,
  sha384: 96,
  sha512: 128,
};

export function bad(code: string, args: Finding['args'] = {}): BagFinding {
  return { weight: 'bad', finding: { code, args } };
}

export function warning(code: string, args: Finding['args'] = {}): BagFinding {
  return { weight: 'warning', finding: { code, args } };
}
