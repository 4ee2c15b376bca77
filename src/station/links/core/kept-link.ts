import type { EpochMs } from '../../../base/index.ts';
import type { LinkScope } from '../../../contract/index.ts';

/** A link as `keys/links.json` holds it. No secret stands there, only hashes of secrets (SHA-256, hexadecimal). */
export interface KeptLink {
  readonly id: string;
  readonly scope: LinkScope;
  readonly name: string;
  /** Of a guest. */
  readonly share: KeptShare | null;
  readonly madeMs: EpochMs;
  readonly endsMs: EpochMs;
  readonly tokenHash: string;
  /** Devices that came in by it, the latest last. */
  readonly devices: readonly KeptDevice[];
}

/** What a guest is shown: one job, all of its shots where none is named. */
export interface KeptShare {
  readonly job: string;
  readonly shots: readonly string[];
}

export interface KeptDevice {
  readonly secretHash: string;
  readonly sinceMs: EpochMs;
  /** Ids of the agreements that were given on it, the latest last: whose they are, a name that somebody types does not prove. */
  readonly words: readonly string[];
}

/** More are not looked through by anybody who ought to know who looks in. */
export const linksMax = 50;

/** The device that came in first goes when one more comes: scanning a code again in another app makes another. */
export const devicesMax = 8;

/** Agreements remembered of one device: every shot of a long list, twice. The operator takes back what is older. */
export const wordsOfDeviceMax = 500;

/** The link with an agreement given on one of its devices, by the hash of that one's secret; the oldest goes beyond the bound. */
export function withWord(link: KeptLink, device: string, agreement: string): KeptLink {
  const devices = link.devices.map((each) =>
    each.secretHash === device
      ? { ...each, words: [...each.words.slice(1 - wordsOfDeviceMax), agreement] }
      : each,
  );
  return { ...link, devices };
}

const hashPattern = /^[0-9a-f]{64}$/;

/** The links in a file's text; null where it holds something else. */
export function parseLinks(text: string): readonly KeptLink[] | null {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return null;
  }
  if (!Array.isArray(data) || data.length > linksMax) return null;
  const links = data.map(linkOf);
  return links.every((link) => link !== null) ? links : null;
}

function linkOf(entry: unknown): KeptLink | null {
  if (typeof entry !== 'object' || entry === null) return null;
  const fields = new Map<string, unknown>(Object.entries(entry));
  const [id, name, scope] = [fields.get('id'), fields.get('name'), fields.get('scope')];
  const [madeMs, endsMs, tokenHash] = [fields.get('madeMs'), fields.get('endsMs'), fields.get('tokenHash')];
  const share = shareOf(fields.get('share'));
  const devices = devicesOf(fields.get('devices'));
  if (typeof id !== 'string' || typeof name !== 'string' || !isMoment(madeMs) || !isMoment(endsMs))
    return null;
  if (scope !== 'operator' && scope !== 'pocket' && scope !== 'guest') return null;
  if (!isHash(tokenHash) || share === undefined || devices === null) return null;
  if ((scope === 'guest') !== (share !== null)) return null;
  return { id, scope, name, share, madeMs, endsMs, tokenHash, devices };
}

function shareOf(value: unknown): KeptShare | null | undefined {
  if (value === null) return null;
  if (typeof value !== 'object' || value === undefined) return undefined;
  const fields = new Map<string, unknown>(Object.entries(value));
  const [job, shots] = [fields.get('job'), fields.get('shots')];
  if (typeof job !== 'string' || !Array.isArray(shots)) return undefined;
  const texts = shots.filter((shot): shot is string => typeof shot === 'string');
  return texts.length === shots.length ? { job, shots: texts } : undefined;
}

function devicesOf(value: unknown): readonly KeptDevice[] | null {
  if (!Array.isArray(value) || value.length > devicesMax) return null;
  const devices = value.flatMap((entry: unknown): KeptDevice[] => {
    if (typeof entry !== 'object' || entry === null) return [];
    const fields = new Map<string, unknown>(Object.entries(entry));
    const [secretHash, sinceMs] = [fields.get('secretHash'), fields.get('sinceMs')];
    // Files of earlier versions have none.
    const words = wordsOf(fields.get('words') ?? []);
    return isHash(secretHash) && isMoment(sinceMs) && words !== null ? [{ secretHash, sinceMs, words }] : [];
  });
  return devices.length === value.length ? devices : null;
}

function wordsOf(value: unknown): readonly string[] | null {
  if (!Array.isArray(value) || value.length > wordsOfDeviceMax) return null;
  const words = value.filter((word): word is string => typeof word === 'string');
  return words.length === value.length ? words : null;
}

function isHash(value: unknown): value is string {
  return typeof value === 'string' && hashPattern.test(value);
}

function isMoment(value: unknown): value is EpochMs {
  return typeof value === 'number' && Number.isFinite(value);
}
