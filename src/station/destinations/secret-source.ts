import { z } from 'zod';
import type { DestinationPlace } from '../../contract/index.ts';

/** Where the secret of a destination comes from. Only `kept` holds one itself. */
export const secretSource = z.discriminatedUnion('from', [
  z.strictObject({ from: z.literal('kept'), text: z.string().min(1) }),
  z.strictObject({ from: z.literal('environment'), variable: z.string().regex(/^[A-Za-z_][A-Za-z0-9_]*$/) }),
  /** A program with its words, run without a shell. Set from the command line only: a page could else run anything. */
  z.strictObject({ from: z.literal('command'), words: z.array(z.string().min(1).max(1000)).min(1).max(50) }),
]);
export type SecretSource = z.infer<typeof secretSource>;

/**
 * Whether a secret for the one is for the other too. Where it is not, it is not kept: whoever may change a destination could else have it
 * told to a server of theirs.
 */
export function sameLogIn(a: DestinationPlace, b: DestinationPlace): boolean {
  if (a.kind === 'sftp' && b.kind === 'sftp')
    return a.host === b.host && a.port === b.port && a.user === b.user && a.logInBy === b.logInBy;
  if (a.kind === 's3' && b.kind === 's3')
    return a.endpoint === b.endpoint && a.region === b.region && a.accessKeyId === b.accessKeyId;
  return a.kind === 'folder' && b.kind === 'folder';
}
