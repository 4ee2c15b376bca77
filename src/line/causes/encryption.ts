import { epochMsToRfc3339 } from '../../base/index.ts';
import type { LineFacts } from '../facts.ts';
import type { CauseCode, Cure, LineFinding, Sureness } from '../shapes.ts';
import { cure, found, seen } from './finding.ts';
import { timesOf, troubles } from './told.ts';

interface Meaning {
  readonly code: CauseCode;
  readonly sure: Sureness;
  readonly cures: readonly Cure[];
}

const importRoot = cure('camera', 'import-root');
const setClock = cure('camera', 'set-clock');
const setImplicit = cure('camera', 'set-implicit');
const plain = cure('camera', 'plain-or-sftp');

/**
 * What a handshake that failed means, after the alerts of RFC 8446 section 6.2. A camera whose clock is off cannot say so:
 * it says that the certificate is bad or has expired.
 */
const meanings: Readonly<Record<string, Meaning>> = {
  'old-version': { code: 'line-check.tls-version', sure: 'certain', cures: [plain] },
  'no-cipher': { code: 'line-check.tls-version', sure: 'likely', cures: [plain] },
  'unknown-authority': { code: 'line-check.tls-untrusted', sure: 'certain', cures: [importRoot] },
  // Without an alert: it may also be one that speaks in clear, which waits for a greeting (RFC 959 section 5.4) and goes.
  left: { code: 'line-check.tls-failed', sure: 'possible', cures: [importRoot, setClock, setImplicit] },
  'bad-certificate': { code: 'line-check.tls-clock', sure: 'likely', cures: [setClock, importRoot] },
  'not-tls': {
    code: 'line-check.tls-not-spoken',
    sure: 'certain',
    cures: [setImplicit],
  },
};
const otherwise: Meaning = { code: 'line-check.tls-failed', sure: 'possible', cures: [importRoot, plain] };

/** Cameras that cannot begin encryption, and such as do not go on with it. */
export function encryptionTroubles(facts: LineFacts): readonly LineFinding[] {
  const failed = troubles(facts, ['line.tls-failed'], 'log-in', ({ args }) => String(args.why ?? ''));
  const unsecured = troubles(facts, ['line.data-not-secured', 'line.data-not-resumed'], 'upload');
  return [
    ...failed.map((trouble) => {
      const why = String(trouble.last.finding.args.why ?? '');
      const { code, sure, cures } = meanings[why] ?? otherwise;
      return found(
        [code, 'shut', sure],
        { address: trouble.address },
        {
          camera: trouble.camera,
          evidence: [
            timesOf(trouble, facts),
            seen('tls', { why }),
            code === 'line-check.tls-clock' ? validity(facts) : null,
          ],
          cures,
        },
      );
    }),
    ...unsecured.map((trouble) =>
      found(
        ['line-check.tls-data', 'shut', 'certain'],
        {},
        {
          camera: trouble.camera,
          evidence: [timesOf(trouble, facts)],
          cures: [cure('camera', 'protect-data')],
        },
      ),
    ),
  ];
}

function validity({ certificate }: LineFacts): ReturnType<typeof seen> | null {
  if (certificate === null) return null;
  const day = (atMs: number): string => epochMsToRfc3339(atMs).slice(0, 10);
  return seen('certificate', { from: day(certificate.notBeforeMs), to: day(certificate.notAfterMs) });
}
